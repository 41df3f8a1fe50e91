//! Whole jobs, from `start` to the result: the good one, and each mistake with what it must come to.

mod bench;

use bench::*;
use events::*;

#[test]
fn a_good_job_ends_as_set_with_an_honest_uncertainty() {
    let mut bay = Bay::new("six-speed");
    assert_eq!(bay.advice(), Advice::StartJob);
    bay.tells("start");
    assert_eq!(bay.advice(), Advice::PrepareVehicle);
    bay.tells("confirm on-stands\nconfirm ventilated\nlevel 0.1 -0.1");
    assert_eq!(bay.advice(), Advice::Drain);
    bay.tells("drained 2400 40");
    assert_eq!(bay.advice(), Advice::Fill);
    bay.tells("filled 2870 20");
    bay.seconds(2);
    assert_eq!(bay.advice(), Advice::StartEngine);
    bay.engine(720);
    assert_eq!(bay.advice(), Advice::CycleSelector);
    bay.tells("confirm brake-held\nconfirm selector-cycled");
    bay.below();
    assert_eq!((bay.advice(), bay.view().open), (Advice::StayClear, vec![]));
    assert_eq!(bay.view().step, Step::Window);
    bay.go();
    assert_eq!(bay.advice(), Advice::OpenPort);
    bay.tells("flowing");
    assert_eq!((bay.advice(), bay.view().step), (Advice::WatchStream, Step::RunOut));
    bay.seconds(90);
    bay.tells("trickle");
    assert_eq!((bay.advice(), bay.view().step), (Advice::ClosePort, Step::Close));
    bay.tells("closed\nran-out 510 38");
    assert_eq!(bay.advice(), Advice::Tighten);
    bay.engine(0);
    bay.tells("torqued");
    assert_eq!(bay.advice(), Advice::TestDrive);
    bay.tells("test-driven");
    assert_eq!(bay.advice(), Advice::Finish);
    bay.tells("done");
    assert_eq!(bay.advice(), Advice::Recheck);

    let result = bay.result();
    assert_eq!((result.outcome, result.shortfalls, result.open), (Outcome::Set, vec![], vec![]));
    assert_eq!(result.recheck_due.len(), 2);
    let error = result.level_error.unwrap();
    // Closed at mid-band: what is left is the tilt, 0.1° at 120 mm on 0.060 m² (125.7 mL per degree).
    assert_eq!(error.millilitres, ml(13));
    assert!((50..=70).contains(&error.expanded_millilitres.steps()), "{error:?}");
}

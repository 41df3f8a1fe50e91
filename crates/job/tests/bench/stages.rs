//! How far a job of any procedure is, as its sheet wants it.

use super::Bay;
use events::*;

/// Prepared, drained and filled as the sheet of the procedure wants, engine off; nothing measured again.
pub(crate) fn filled(id: &str, ml: i32) -> Bay {
    let mut bay = Bay::new(id);
    bay.tells("start\nconfirm on-stands\nlevel 0.1 -0.1");
    match bay.sheet.level.drive {
        Drive::None => bay.tells("as inside confirm ready-off"),
        _ => bay.tells("confirm exhaust-outside"),
    }
    bay.seconds(2);
    bay.hands();
    let drained = bay.sheet.fluid.drain_ml as i32;
    bay.tells(&format!("drained {drained} 20"));
    if bay.sheet.level.sump_opens() == SumpOpens::Pipe {
        bay.tells("confirm pipe-in");
    }
    bay.tells(&format!("filled {ml} 20"));
    bay
}

/// And idling, the rounds done.
pub(crate) fn idling(id: &str, ml: i32) -> Bay {
    let mut bay = filled(id, ml);
    bay.tells("confirm closed-up\nconfirm clear");
    bay.engine(720);
    bay.tells("confirm brake-held\nconfirm selector-cycled");
    bay.below();
    bay
}

pub(crate) fn outcome(bay: &mut Bay) -> Outcome {
    bay.tells("done");
    bay.result().outcome
}

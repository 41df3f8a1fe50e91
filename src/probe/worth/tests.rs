use super::*;

/// An adapter with nothing against it: a hundred requests, ten a second.
fn well() -> Findings {
    Findings {
        heard: true,
        named: true,
        set_up: true,
        readings: 100,
        still_reading: true,
        requests: 100,
        per_second: 10.0,
        hole: Duration::from_millis(120),
        ..Findings::default()
    }
}

/// The same, but nothing was read.
fn unread(trouble: Option<Trouble>) -> Findings {
    Findings { readings: 0, still_reading: false, per_second: 0.0, trouble, ..well() }
}

/// The same, but it stopped before the end.
fn stopped(trouble: Option<Trouble>) -> Findings {
    Findings { still_reading: false, trouble, ..well() }
}

fn lost(by_the_adapter: u64, by_others: u64) -> Findings {
    let lost = Lost { spoilt: by_the_adapter, unanswered: by_others, by_the_adapter, ..Lost::default() };
    Findings { lost, ..well() }
}

#[test]
fn the_decision_row_by_row() {
    type Case = (&'static str, Findings, Worth, &'static str);
    #[rustfmt::skip]
    let cases: Vec<Case> = vec![
        ("nothing against it", well(), Good, "10.0 times a second and loses nothing"),

        ("two in a hundred lost", lost(2, 0), Good, "loses 2 %"),
        ("three in a hundred lost", lost(3, 0), GoodWithLimits, "3 % of the requests bring nothing"),
        ("a fifth lost", lost(20, 0), GoodWithLimits, "20 % of the requests bring nothing"),
        ("more than a fifth lost", lost(21, 0), SendItBack, "loses 21 % of what is asked"),
        ("a fifth lost by others", lost(0, 20), GoodWithLimits, "20 %"),
        ("more lost, by others", lost(0, 21), CannotTell, "not by the adapter's fault"),
        ("more lost, by both", lost(15, 15), CannotTell, "30 %"),

        ("as often as the daemon asks", Findings { per_second: 2.0, ..well() }, Good, "2.0 times a second"),
        ("a little slower", Findings { per_second: 1.9, ..well() }, GoodWithLimits, "only 1.9 times a second"),
        ("once in two seconds", Findings { per_second: 0.5, ..well() }, GoodWithLimits, "only 0.5 times"),
        ("slower", Findings { per_second: 0.4, ..well() }, SendItBack, "too slow for a check"),

        ("silent as long as a reading is fresh", Findings { hole: Duration::from_secs(5), ..well() }, Good, "loses nothing"),
        ("silent for longer", Findings { hole: Duration::from_secs(6), ..well() }, GoodWithLimits, "nothing was read for 6 s"),

        ("settings lost once", Findings { resets: 1, ..well() }, GoodWithLimits, "lost its settings once"),
        ("settings lost twice", Findings { resets: 2, ..well() }, GoodWithLimits, "lost its settings twice"),
        ("settings lost three times", Findings { resets: 3, ..well() }, SendItBack, "lost its settings 3 times"),
        ("a late reply", Findings { late: 1, ..well() }, GoodWithLimits, "did not end a reply in time, once"),
        ("its supply dipped", Findings { dips: 5, ..well() }, GoodWithLimits, "its supply dipped 5 times"),

        ("the connection broke once", Findings { cuts: 1, ..well() }, GoodWithLimits, "the connection broke once"),
        ("the connection broke twice", Findings { cuts: 2, ..well() }, SendItBack, "the connection broke twice"),
        ("and nothing was read", Findings { cuts: 2, ..unread(Some(PortGone)) }, SendItBack, "broke twice"),

        ("first characters lost, but it reads", Findings { first_lost: 3, ..well() }, GoodWithLimits, "unless it is given time"),
        ("first characters lost, and nothing read", Findings { first_lost: 3, ..unread(Some(Talk)) }, SendItBack, "loses the first character"),
        ("first characters lost, and never ready", Findings { first_lost: 3, set_up: false, ..unread(None) }, SendItBack, "loses the first character"),
        ("first characters lost, and the vehicle silent", Findings { first_lost: 3, ..unread(Some(Trouble::VehicleSilent)) }, CannotTell, "vehicle does not answer"),

        ("no names", Findings { nameless: true, ..well() }, GoodWithLimits, "which control unit answers"),
        ("several limits", Findings { resets: 1, per_second: 1.0, ..well() }, GoodWithLimits, "wider margin; it lost its settings once"),

        ("nothing came at all", Findings { heard: false, named: false, ..unread(Some(AdapterSilent)) }, CannotTell, "as silent as a broken one"),
        ("silent after it spoke", unread(Some(AdapterSilent)), SendItBack, "fell silent"),
        ("a wrong port", unread(Some(Modem)), CannotTell, "no adapter was heard"),
        ("a wrong rate", unread(Some(Noise)), CannotTell, "no adapter was heard"),
        ("a bare cable", unread(Some(Loop)), CannotTell, "bare cable"),
        ("takes no setting, named", unread(Some(Talk)), SendItBack, "says who it is"),
        ("takes no setting, unnamed", Findings { named: false, ..unread(Some(Talk)) }, CannotTell, "does not say that it is an adapter"),
        ("gone before anything was read", unread(Some(PortGone)), CannotTell, "not there long enough"),
        ("starts anew again and again", unread(Some(Restarting)), SendItBack, "has lost its settings"),
        ("its supply dips again and again", Findings { dips: 4, ..unread(Some(Restarting)) }, CannotTell, "battery"),
        ("never ready", Findings { set_up: false, ..unread(None) }, SendItBack, "never ready"),
        ("never connected, no trouble", unread(None), CannotTell, "had not answered"),

        ("stopped, the adapter's", stopped(Some(AdapterSilent)), SendItBack, "it read for a while, then: the adapter does not answer"),
        ("stopped, the vehicle's", stopped(Some(Trouble::VehicleSilent)), CannotTell, "then: the vehicle does not answer"),
        ("stopped, refused", stopped(Some(Trouble::RefusedNow)), CannotTell, "then: the control unit refuses"),
        ("stopped, no data", stopped(Some(UnitSilent)), CannotTell, "another vehicle shows"),
        ("stopped, cut", stopped(Some(PortGone)), CannotTell, "the plug may be loose"),
        ("stopped, its supply", Findings { dips: 1, ..stopped(Some(Restarting)) }, CannotTell, "battery"),
        ("stopped, and still waiting", stopped(None), CannotTell, "waited for the vehicle"),
    ];
    for (what, findings, worth, because) in cases {
        let got = judge(&findings);
        assert_eq!(got.worth, worth, "{what}: {}", got.because);
        assert!(got.because.contains(because), "{what}: {}", got.because);
    }
}

#[test]
fn where_nothing_was_read_the_one_who_is_at_fault_decides() {
    for &trouble in Trouble::ALL {
        let got = judge(&unread(Some(trouble)));
        let want = match trouble {
            // The adapter without supply, and what is no adapter.
            Loop => CannotTell,
            _ if trouble.party() == Party::Adapter => SendItBack,
            _ => CannotTell,
        };
        assert_eq!(got.worth, want, "{trouble}: {}", got.because);
    }
}

#[test]
fn an_adapter_is_never_sent_back_for_a_silent_vehicle_or_a_refusing_unit() {
    for &trouble in Trouble::ALL {
        if !matches!(trouble.party(), Party::Vehicle | Party::ControlUnit) {
            continue;
        }
        for findings in [unread(Some(trouble)), stopped(Some(trouble))] {
            assert_eq!(judge(&findings).worth, CannotTell, "{trouble}");
        }
    }
}

#[test]
fn good_is_said_only_where_it_still_reads_and_loses_next_to_nothing() {
    let troubles = std::iter::once(None).chain(Trouble::ALL.iter().copied().map(Some));
    for trouble in troubles {
        for readings in [0, 100] {
            for still_reading in [false, true] {
                for by_the_adapter in [0, 2, 3, 50] {
                    let findings = Findings { trouble, readings, still_reading, ..lost(by_the_adapter, 0) };
                    let got = judge(&findings);
                    assert!(!got.because.is_empty() && !got.because.ends_with('.'), "{findings:?}");
                    if matches!(got.worth, Good | GoodWithLimits) {
                        assert!(readings > 0 && still_reading, "{findings:?}");
                    }
                    if got.worth == Good {
                        assert!(findings.lost_share() <= LOST_GOOD, "{findings:?}");
                    }
                }
            }
        }
    }
}

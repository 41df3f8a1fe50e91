//! What can be told at any time of a job: behind the others.
//!
//! In: the ground of the offers. Out: offers that stand aside. Not here: what the advice asks for (`offer.rs`).

use events::{Advice, Alarm, EngineWord, Part, Precondition, Question, Signal, Step, Way};

use super::{Ask, Ground, Offer, amount, asked, engine, gauge, held, plain, spot, words};

/// What can be told at any time of a job; behind the others.
pub(super) fn always(ground: &Ground<'_>) -> Vec<Offer> {
    let mut offers = vec![danger()];
    let port = ground.step.is_some_and(|s| s >= Step::Circulate);
    if port && ground.reads_a_gauge() {
        if !matches!(ground.advice, Advice::ReadGauge | Advice::ReadAgain) {
            offers.push(gauge());
        }
    } else if port && !ground.port_open && ground.advice != Advice::OpenPort {
        // What happened is told even at the wrong time.
        offers.push(held("flowing", "The check port is open, fluid flows"));
        offers.push(held("nothing-flows", "The check port is open, nothing comes"));
    }
    if ground.step.is_some_and(|s| s > Step::Drain)
        && !matches!(ground.advice, Advice::Fill | Advice::FillMore)
    {
        offers.push(amount("filled", "Filled more: how much"));
    }
    offers.extend(lost(ground));
    if ground.step.is_none_or(|s| s <= Step::Fill) {
        offers.push(Offer {
            ask: Ask::Choice(words(Part::ALL, |p| p.word())),
            ..plain("taken-out", "Old fluid went with a part")
        });
        offers.push(amount("kept", "Kept back as a sample: how much"));
    }
    if ground.open.contains(&Precondition::VehicleLevel) {
        offers.push(Offer {
            ask: Ask::Text,
            ..plain("corners", "Four heights: front left, right, rear left, right")
        });
    }
    if ground.people {
        offers.extend(EngineWord::ALL.iter().map(|what| engine(*what)));
    }
    if ground.signal != Some(Signal::Spot) {
        offers.push(spot());
    }
    offers.push(Offer { ask: Ask::Text, ..plain("note", "A remark for the record") });
    offers.push(Offer { ask: Ask::Text, ..plain("vehicle", "Which vehicle: plate or order") });
    if ground.advice != Advice::Finish {
        offers.push(held("done", "Write the record now"));
    }
    offers.push(Offer { ask: Ask::Text, ..held("abort", "End the job without a level") });
    // Several may be told, in any job.
    let several = [Question::Symptoms, Question::Fluid];
    offers.extend(several.into_iter().filter(|question| ground.asks != Some(*question)).map(asked));
    offers.into_iter().map(|o| Offer { aside: true, ..o }).collect()
}

/// What no vessel caught, of the amount that is in hand.
fn lost(ground: &Ground<'_>) -> Option<Offer> {
    let (of, label) = match ground.step? {
        Step::Drain => (Way::Drained, "Spilled at the drain, by eye: how much"),
        Step::Fill | Step::Circulate => (Way::Filled, "Spilled while filling, by eye: how much"),
        Step::RunOut | Step::Trickle | Step::Close | Step::Torque => {
            (Way::RanOut, "Spilled at the check port, by eye: how much")
        }
        _ => return None,
    };
    Some(Offer { text: Some(of.word().to_owned()), ..amount("spilled", label) })
}

/// Somebody is in danger.
pub(super) fn danger() -> Offer {
    let words = Alarm::ALL.iter().map(|a| a.word().to_owned()).collect();
    Offer { ask: Ask::Choice(words), aside: true, ..plain("alarm", "Somebody is in danger") }
}

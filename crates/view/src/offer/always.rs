//! What can be told at any time of a job: behind the others.
//!
//! In: the ground of the offers. Out: offers that stand aside. Not here: what the advice asks for (`offer.rs`).

use events::{Advice, Alarm, EngineWord, Part, Particular, Precondition, Question, Signal, Step, Way};

use super::{Ask, Ground, Offer, asked, choices, engine, gauge, spot};

/// What can be told at any time of a job; behind the others.
pub(super) fn always(ground: &Ground<'_>) -> Vec<Offer> {
    let mut offers = vec![danger(ground)];
    let port = ground.step.is_some_and(|s| s >= Step::Circulate);
    if port && ground.reads_a_gauge() {
        if !matches!(ground.advice, Advice::ReadGauge | Advice::ReadAgain) {
            offers.push(gauge(ground));
        }
    } else if port && !ground.port_open && ground.advice != Advice::OpenPort {
        // What happened is told even at the wrong time.
        offers.push(ground.held("flowing", "offer-the-check-port-is-open-fluid-flows"));
        offers.push(ground.held("nothing-flows", "offer-the-check-port-is-open-nothing-comes"));
    }
    if ground.step.is_some_and(|s| s > Step::Drain)
        && !matches!(ground.advice, Advice::Fill | Advice::FillMore)
    {
        offers.push(ground.amount("filled", "offer-filled-more-how-much"));
    }
    offers.extend(lost(ground));
    if ground.step.is_none_or(|s| s <= Step::Fill) {
        offers.push(Offer {
            ask: Ask::Choice(choices(ground, Part::ALL)),
            ..ground.plain("taken-out", "offer-old-fluid-went-with-a-part")
        });
        offers.push(ground.amount("kept", "offer-kept-back-as-a-sample-how-much"));
    }
    if ground.open.contains(&Precondition::VehicleLevel) {
        offers.push(Offer {
            ask: Ask::Text,
            ..ground.plain("corners", "offer-four-heights-front-left-right-rear-left-righ")
        });
    }
    if ground.people {
        offers.extend(EngineWord::ALL.iter().map(|what| engine(ground, *what)));
    }
    if ground.signal != Some(Signal::Spot) {
        offers.push(spot(ground));
    }
    offers.push(Offer { ask: Ask::Text, ..ground.plain("note", "offer-a-remark-for-the-record") });
    offers.push(Offer { ask: Ask::Text, ..ground.plain("vehicle", "offer-which-vehicle-plate-or-order") });
    if ground.step.is_none_or(|s| s == Step::Prepare || s >= Step::Torque) {
        offers.extend(Particular::ALL.iter().map(|what| particular(ground, *what)));
    }
    if ground.advice != Advice::Finish {
        offers.push(ground.held("done", "offer-write-the-record-now"));
    }
    offers.push(Offer { ask: Ask::Text, ..ground.held("abort", "offer-end-the-job-without-a-level") });
    // Several may be told, in any job.
    let several = [Question::Symptoms, Question::Fluid];
    offers.extend(
        several
            .into_iter()
            .filter(|question| ground.asks != Some(*question))
            .map(|question| asked(ground, question)),
    );
    offers.into_iter().map(|o| Offer { aside: true, ..o }).collect()
}

/// What stands in the report beside the work: hands are free for it before it begins and once all is tight.
fn particular(ground: &Ground<'_>, what: Particular) -> Offer {
    let label = match what {
        Particular::Odometer => "offer-odometer",
        Particular::Technician => "offer-technician",
        Particular::Workshop => "offer-workshop",
        Particular::Fluid => "offer-fluid",
        Particular::Batch => "offer-batch",
        Particular::Cost => "offer-cost",
    };
    Offer { ask: Ask::Text, ..ground.plain(what.word(), label) }
}

/// What no vessel caught, of the amount that is in hand.
fn lost(ground: &Ground<'_>) -> Option<Offer> {
    let (of, label) = match ground.step? {
        Step::Drain => (Way::Drained, "offer-spilled-at-the-drain-by-eye-how-much"),
        Step::Fill | Step::Circulate => (Way::Filled, "offer-spilled-while-filling-by-eye-how-much"),
        Step::RunOut | Step::Trickle | Step::Close | Step::Torque => {
            (Way::RanOut, "offer-spilled-at-the-check-port-by-eye-how-much")
        }
        _ => return None,
    };
    Some(Offer { text: Some(of.word().to_owned()), ..ground.amount("spilled", label) })
}

/// Somebody is in danger.
pub(super) fn danger(ground: &Ground<'_>) -> Offer {
    Offer {
        ask: Ask::Choice(choices(ground, Alarm::ALL)),
        aside: true,
        ..ground.plain("alarm", "offer-somebody-is-in-danger")
    }
}

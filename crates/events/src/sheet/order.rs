//! The order of the steps: what must come before what, and what is wrong with an order that a sheet asks for.

use crate::Step;

/// What must come before what: all else may change places.
const FIRST: &[(Step, Step)] = &[
    (Step::Drain, Step::Fill),
    (Step::Fill, Step::Circulate),
    (Step::Prepare, Step::Circulate),
    (Step::Circulate, Step::Window),
    (Step::Window, Step::RunOut),
    (Step::RunOut, Step::Trickle),
    (Step::Trickle, Step::Close),
    (Step::Close, Step::Torque),
    (Step::Torque, Step::TestDrive),
    (Step::TestDrive, Step::Recheck),
];

/// What is wrong with an order of steps, in words.
pub(super) fn wrong_order(order: &[Step]) -> Option<String> {
    let place = |step: Step| order.iter().position(|s| *s == step);
    let missing = Step::ALL.iter().find(|s| place(**s).is_none());
    if let Some(missing) = missing {
        return Some(format!("without `{missing}`"));
    }
    if order.len() > Step::ALL.len() {
        return Some("naming a step twice".to_owned());
    }
    FIRST.iter().find(|(a, b)| place(*a) > place(*b)).map(|(a, b)| format!("`{b}` before `{a}`"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_rests_on_another_step_stays_behind_it() {
        assert_eq!(wrong_order(Step::ALL), None);
        let swapped = |a: usize, b: usize| {
            let mut order = Step::ALL.to_vec();
            order.swap(a, b);
            wrong_order(&order)
        };
        assert_eq!(swapped(0, 1), None, "preparing may come after the drain");
        assert_eq!(swapped(1, 2).as_deref(), Some("`fill` before `drain`"));
        assert_eq!(wrong_order(&Step::ALL[1..]).as_deref(), Some("without `prepare`"));
        let twice = [Step::ALL, &[Step::Drain]].concat();
        assert_eq!(wrong_order(&twice).as_deref(), Some("naming a step twice"));
    }
}

//! Is a gate that lacks a protection found? The same rehearsals with the gate as it is and with the one that lacks it.
//!
//! In: seeds, forms of rehearsals, the two programs. Out: [`Found`], after how many rehearsals the claims on time are
//! broken by the one and held by the other. Not here: how a protection is taken out (the feature `taken-out` of `gate`).

use events::Sheet;

use super::{Campaign, Form};
use crate::setup::Setup;
use crate::stage::Program;

/// What a hunt came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// The form of the rehearsals that found it, and after how many; none: not found.
    pub by: Option<(Form, u64)>,
    /// What is broken then, in words.
    pub broken: Vec<String>,
    /// What the rehearsals of the last form came to without the protection.
    pub without: Campaign,
    /// And the same ones with it.
    pub whole: Campaign,
}

/// The gate as it is, kept from one hunt to the next.
#[derive(Debug, Default)]
pub struct Whole {
    campaigns: Vec<(Form, Campaign)>,
}

impl Whole {
    /// At least so many rehearsals of this form.
    fn upto<P: Program>(
        &mut self,
        form: Form,
        runs: u64,
        from: u64,
        sheets: &[Sheet],
        program: impl Fn(&Setup) -> P + Sync,
    ) -> Campaign {
        let place = self.campaigns.iter().position(|(of, _)| *of == form);
        let place = place.unwrap_or_else(|| {
            self.campaigns.push((form, Campaign::default()));
            self.campaigns.len() - 1
        });
        let Some((_, campaign)) = self.campaigns.get_mut(place) else { return Campaign::default() };
        let done = campaign.findings.len() as u64;
        if done < runs {
            let more = Campaign::run(from + done, runs - done, sheets, form, program, |_| ());
            campaign.findings.extend(more.findings);
        }
        let findings = campaign.findings.iter().take(runs as usize).cloned().collect();
        Campaign { findings }
    }
}

/// Hunts in rehearsals of one form after the other, `most` of each, `batch` at a time.
pub fn hunt<P: Program>(
    forms: &[Form],
    (from, most, batch): (u64, u64, u64),
    sheets: &[Sheet],
    whole: &mut Whole,
    with: impl Fn(&Setup) -> P + Sync,
    without: impl Fn(&Setup) -> P + Sync,
) -> Found {
    let mut found =
        Found { by: None, broken: Vec::new(), without: Campaign::default(), whole: Campaign::default() };
    for &form in forms {
        found.without = Campaign::default();
        let mut runs = 0;
        while runs < most {
            let next = batch.min(most - runs);
            let more = Campaign::run(from + runs, next, sheets, form, &without, |_| ());
            found.without.findings.extend(more.findings);
            runs += next;
            found.broken = found.without.false_acceptance();
            if found.broken.is_empty() {
                continue;
            }
            found.whole = whole.upto(form, runs, from, sheets, &with);
            if found.whole.false_acceptance().is_empty() {
                found.by = Some((form, runs));
                return found;
            }
        }
        found.whole = whole.upto(form, most, from, sheets, &with);
    }
    found.broken = Vec::new();
    found
}

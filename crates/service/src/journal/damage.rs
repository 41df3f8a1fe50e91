//! What was found wrong with a journal, and the words for it.
//!
//! In: causes, and the numbers of events that are missing or not what was written. Out: one sentence that names them all. Not here: how they are
//! found (`restore.rs`, `salvage.rs`).

use std::fmt::{self, Write as _};

/// So many spans are named one by one; then the rest as one.
/// Own choice: a fault stays a page that people read; all are counted.
const NAMED: usize = 12;

/// Numbers whose events are missing, changed, or cannot be proven to be what was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Span {
    pub(crate) first: u64,
    pub(crate) last: u64,
    /// So many of them are there, as they are.
    pub(crate) kept: u64,
    /// Whether every number from first to last had an event. Where the beginning of a batch is not known, there may have been fewer.
    pub(crate) every: bool,
}

impl fmt::Display for Span {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { first, last, kept, every } = *self;
        let of = last.saturating_sub(first).saturating_add(1);
        let most = if every { "" } else { "at most " };
        if first == last {
            return write!(
                f,
                "{first} ({})",
                if kept == 0 { "missing" } else { "there, but not as it was written" }
            );
        }
        match kept {
            0 => write!(f, "{first} to {last} ({most}{of} missing)"),
            kept if kept >= of => {
                write!(f, "{first} to {last} (all {of} there, but not as they were written)")
            }
            kept => write!(f, "{first} to {last} ({kept} of {most}{of} there)"),
        }
    }
}

/// All that was found.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Damage {
    /// What is wrong, one clause each.
    pub(crate) causes: Vec<String>,
    /// In the order of their numbers.
    pub(crate) spans: Vec<Span>,
}

impl Damage {
    pub(crate) const fn is_none(&self) -> bool {
        self.causes.is_empty() && self.spans.is_empty()
    }

    pub(crate) fn cause(&mut self, what: impl Into<String>) {
        let what = what.into();
        if !self.causes.contains(&what) {
            self.causes.push(what);
        }
    }

    /// Adds numbers; spans that meet become one.
    pub(crate) fn add(&mut self, span: Span) {
        self.spans.push(span);
        self.spans.sort_by_key(|s| (s.first, s.last));
        let mut merged: Vec<Span> = Vec::with_capacity(self.spans.len());
        for span in self.spans.drain(..) {
            match merged.last_mut() {
                Some(before) if span.first <= before.last => {
                    // Two looks at the same numbers.
                    let kept = before.kept.max(span.kept);
                    *before = Span {
                        first: before.first,
                        last: before.last.max(span.last),
                        kept,
                        every: before.every && span.every,
                    };
                }
                Some(before) if span.first == before.last.saturating_add(1) => {
                    *before = Span {
                        first: before.first,
                        last: span.last,
                        kept: before.kept.saturating_add(span.kept),
                        every: before.every && span.every,
                    };
                }
                _ => merged.push(span),
            }
        }
        self.spans = merged;
    }

    /// Whether it concerns an event from `first` to `last`.
    pub(crate) fn touches(&self, first: u64, last: u64) -> bool {
        self.spans.iter().any(|s| s.last >= first && s.first <= last)
    }

    /// The spans as people read them; empty where there is none.
    pub(crate) fn numbers(&self) -> String {
        let mut text = String::new();
        for (n, span) in self.spans.iter().take(NAMED).enumerate() {
            let _ = write!(text, "{}{span}", if n == 0 { "" } else { ", " });
        }
        if let Some((first, rest)) = self.spans.get(NAMED..).and_then(<[Span]>::split_first) {
            let last = rest.last().unwrap_or(first).last;
            let _ = write!(text, ", and {} more between {} and {last}", rest.len() + 1, first.first);
        }
        text
    }
}

impl fmt::Display for Damage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.causes.join("; "))?;
        if !self.spans.is_empty() {
            let colon = if self.causes.is_empty() { "" } else { "; " };
            write!(f, "{colon}events that are not as they were written: {}", self.numbers())?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn span(first: u64, last: u64, kept: u64) -> Span {
        Span { first, last, kept, every: true }
    }

    #[test]
    fn every_number_is_named_and_neighbours_are_one() {
        let mut damage = Damage::default();
        assert!(damage.is_none());
        damage.cause("the log is damaged");
        damage.cause("the log is damaged");
        for s in
            [span(41, 44, 2), span(7, 7, 0), span(45, 48, 4), span(9, 9, 1), span(60, 62, 0), span(70, 71, 2)]
        {
            damage.add(s);
        }
        damage.add(Span { first: 80, last: 99, kept: 3, every: false });
        damage.add(Span { first: 110, last: 120, kept: 0, every: false });
        assert_eq!(
            damage.to_string(),
            "the log is damaged; events that are not as they were written: 7 (missing), 9 (there, but not as it was written), \
             41 to 48 (6 of 8 there), 60 to 62 (3 missing), 70 to 71 (all 2 there, but not as they were written), \
             80 to 99 (3 of at most 20 there), 110 to 120 (at most 11 missing)"
        );
        assert!(damage.touches(1, 7) && damage.touches(62, 65) && damage.touches(47, 47));
        assert!(!damage.touches(10, 40) && !damage.touches(121, u64::MAX));
    }

    #[test]
    fn the_same_numbers_seen_twice_are_counted_once() {
        let mut damage = Damage::default();
        damage.add(span(1, 10, 8));
        damage.add(span(1, 10, 8));
        assert_eq!(damage.spans, [span(1, 10, 8)]);
        damage.add(span(5, 12, 8));
        assert_eq!((damage.spans.len(), damage.spans[0].first, damage.spans[0].last), (1, 1, 12));
    }

    #[test]
    fn very_many_are_named_by_their_ends() {
        let mut damage = Damage::default();
        for n in 0..40 {
            damage.add(span(10 * n + 1, 10 * n + 2, 0));
        }
        let said = damage.to_string();
        assert!(said.ends_with("111 to 112 (2 missing), and 28 more between 121 and 392"), "{said}");
    }
}

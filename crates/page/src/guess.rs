//! Who guesses codes, and is not listened to for a while.
//!
//! In: wrong codes, by where they come from. Out: who is shut out. Each address for itself: nobody's guesses keep
//! another from pairing. How much a guesser with many addresses can try is reckoned in `docs/security.md`. Not here:
//! codes.

use std::collections::HashMap;
use std::net::{IpAddr, Ipv4Addr, Ipv6Addr};
use std::time::Duration;

use units::Mono;

/// So many wrong guesses from one address, and it is shut out.
/// Own choice: a person mistypes eight letters once or twice; docs/security.md reckons what a guesser has.
pub(crate) const GUESSES: u32 = 5;
/// For so long.
/// Own choice: as long as a code lives, so that nobody has ten guesses at one.
pub(crate) const SHUT_OUT: Duration = Duration::from_secs(600);
/// Addresses that are remembered; the one that guessed longest ago is forgotten first.
/// Own choice: some 0.2 MB of memory; docs/security.md reckons with sixteen times as many and still finds next to no
/// chance.
const ADDRESSES: usize = 4_096;

/// The addresses that guessed wrong of late.
#[derive(Debug, Default)]
pub(crate) struct Guessers {
    known: HashMap<IpAddr, (u32, Mono)>,
}

impl Guessers {
    /// Whether this one is shut out now.
    pub(crate) fn is_shut_out(&mut self, from: IpAddr, now: Mono) -> bool {
        self.known.retain(|_, (_, last)| now.since(*last) < SHUT_OUT);
        self.known.get(&one(from)).is_some_and(|(guesses, _)| *guesses >= GUESSES)
    }

    /// This one guessed wrong.
    pub(crate) fn guessed(&mut self, from: IpAddr, now: Mono) {
        let from = one(from);
        if self.known.len() >= ADDRESSES && !self.known.contains_key(&from) {
            let longest_ago = self.known.iter().min_by_key(|(_, (_, last))| *last).map(|(from, _)| *from);
            longest_ago.map(|from| self.known.remove(&from));
        }
        let entry = self.known.entry(from).or_insert((0, now));
        *entry = (entry.0.saturating_add(1), now);
    }

    /// Somebody who stands at the machine made a new code: everybody may try again.
    pub(crate) fn forget(&mut self) {
        self.known.clear();
    }
}

/// What counts as one address: all of a machine's loopback, and of IPv6 the network that one customer gets (RFC 6177).
fn one(from: IpAddr) -> IpAddr {
    match from.to_canonical() {
        ip if ip.is_loopback() => Ipv4Addr::LOCALHOST.into(),
        IpAddr::V6(ip) => Ipv6Addr::from_bits(ip.to_bits() >> 64 << 64).into(),
        ip => ip,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> IpAddr {
        text.parse().unwrap()
    }

    fn guesses(guessers: &mut Guessers, from: &str, times: u32, now: Mono) {
        (0..times).for_each(|_| guessers.guessed(at(from), now));
    }

    #[test]
    fn each_address_is_shut_out_for_itself_and_for_a_while() {
        let mut guessers = Guessers::default();
        let now = Mono::from_secs(100);
        guesses(&mut guessers, "192.0.2.1", 4, now);
        assert!(!guessers.is_shut_out(at("192.0.2.1"), now));
        guesses(&mut guessers, "192.0.2.1", 1, now);
        assert!(guessers.is_shut_out(at("192.0.2.1"), now));
        assert!(!guessers.is_shut_out(at("192.0.2.2"), now), "another is not");
        assert!(guessers.is_shut_out(at("192.0.2.1"), Mono::from_secs(699)));
        assert!(!guessers.is_shut_out(at("192.0.2.1"), Mono::from_secs(700)));
        guesses(&mut guessers, "192.0.2.1", 5, Mono::from_secs(701));
        guessers.forget();
        assert!(!guessers.is_shut_out(at("192.0.2.1"), Mono::from_secs(701)));
    }

    #[test]
    fn one_machine_cannot_pass_for_many() {
        let same: &[(&str, &str, bool)] = &[
            ("127.0.0.1", "127.9.9.9", true),
            ("127.0.0.1", "::1", true),
            ("192.0.2.1", "::ffff:192.0.2.1", true),
            ("2001:db8:0:1::1", "2001:db8:0:1:ffff::9", true),
            ("2001:db8:0:1::1", "2001:db8:0:2::1", false),
            ("192.0.2.1", "192.0.2.2", false),
        ];
        for (a, b, want) in same {
            let mut guessers = Guessers::default();
            guesses(&mut guessers, a, 5, Mono::ZERO);
            assert_eq!(guessers.is_shut_out(at(b), Mono::ZERO), *want, "{a} and {b}");
        }
    }

    #[test]
    fn so_many_addresses_are_remembered_and_a_new_one_always_is() {
        let mut guessers = Guessers::default();
        for n in 0..ADDRESSES as u32 {
            let from = Ipv4Addr::from_bits(0x0A00_0000 + n).into();
            guessers.guessed(from, Mono::from_millis(u64::from(n)));
        }
        guesses(&mut guessers, "192.0.2.1", 5, Mono::from_secs(9));
        assert_eq!(guessers.known.len(), ADDRESSES);
        assert!(guessers.is_shut_out(at("192.0.2.1"), Mono::from_secs(9)));
        assert!(!guessers.known.contains_key(&at("10.0.0.0")), "the one that guessed longest ago");
        assert!(guessers.known.contains_key(&at("10.0.0.1")));
    }
}

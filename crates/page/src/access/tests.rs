//! Codes, tokens and links, with a clock that the test sets.

use std::sync::atomic::{AtomicI64, AtomicU64, Ordering};

use units::{Mono, Sleep};

use super::*;

/// Stands still until it is set.
#[derive(Default)]
struct Set {
    mono: AtomicU64,
    wall: AtomicI64,
}

impl Set {
    fn pass(&self, span: Duration) {
        self.mono.fetch_add(span.as_millis() as u64, Ordering::Relaxed);
        self.wall.fetch_add(span.as_millis() as i64, Ordering::Relaxed);
    }
}

impl Clock for Set {
    fn now(&self) -> Mono {
        Mono::from_millis(self.mono.load(Ordering::Relaxed))
    }
    fn wall_millis(&self) -> i64 {
        self.wall.load(Ordering::Relaxed)
    }
    fn sleep_until(&self, _: Mono) -> Sleep {
        Box::pin(std::future::pending())
    }
}

struct Bench {
    folder: tempfile::TempDir,
    clock: Arc<Set>,
    pairings: Pairings,
}

fn bench() -> Bench {
    let folder = tempfile::tempdir().unwrap();
    let clock = Arc::new(Set::default());
    clock.wall.store(1_772_400_000_000, Ordering::Relaxed);
    let pairings = Pairings::at(folder.path().join("bay.pairings"), clock.clone());
    Bench { folder, clock, pairings }
}

impl Bench {
    /// The same file, as another process has it.
    fn other(&self) -> Pairings {
        Pairings::at(self.folder.path().join("bay.pairings"), self.clock.clone())
    }

    fn redeem(&self, code: &str, from: IpAddr) -> Admission {
        self.pairings.redeem(code, "a phone", from).unwrap()
    }

    fn is_let_in(&self, code: &str, from: IpAddr) -> bool {
        matches!(self.redeem(code, from), Admission::Token(_))
    }
}

fn there(n: u8) -> IpAddr {
    IpAddr::V4(std::net::Ipv4Addr::new(192, 0, 2, n))
}

const WRONG: &str = "AAAAAAAA";

#[test]
fn a_code_lets_in_once_however_it_is_typed() {
    let bench = bench();
    let code = bench.pairings.new_code().unwrap();
    assert!(code.len() == 8 && code.bytes().all(|b| LETTERS.contains(&b)), "{code}");
    let typed = format!(" {}-{} ", code[..4].to_lowercase(), &code[4..]);
    let Admission::Token(token) = bench.redeem(&typed, there(1)) else { panic!("{code}") };
    assert!(token.len() == 64 && token.bytes().all(|b| b.is_ascii_hexdigit()), "{token}");
    assert_eq!(bench.pairings.may(&token), Some(May::Tell));
    assert_eq!(bench.redeem(&code, there(1)), Admission::Wrong, "only once");
    assert_eq!(bench.pairings.may("0000"), None);
}

#[test]
fn a_code_lives_ten_minutes_and_not_a_second_longer() {
    for (lives, after) in [(true, 599), (false, 600), (false, 601)] {
        let bench = bench();
        let code = bench.pairings.new_code().unwrap();
        bench.clock.pass(Duration::from_secs(after));
        assert_eq!(bench.is_let_in(&code, there(1)), lives, "after {after} s");
    }
    // Also where nobody has written the file since: the one that is read is the one that has expired.
    let bench = bench();
    let code = bench.pairings.new_code().unwrap();
    bench.clock.pass(CODE_LIVES);
    assert_eq!(bench.redeem(&code, there(1)), Admission::Wrong);
    bench.pairings.new_link("wall").unwrap();
    assert_eq!(bench.redeem(&code, there(2)), Admission::Wrong);
}

#[test]
fn a_clock_that_is_set_back_gives_no_code_a_longer_life() {
    let bench = bench();
    let code = bench.pairings.new_code().unwrap();
    bench.clock.wall.fetch_sub(3_600_000, Ordering::Relaxed);
    assert!(!bench.is_let_in(&code, there(1)));
}

#[test]
fn a_guesser_is_shut_out_and_everybody_else_still_pairs() {
    let bench = bench();
    let code = bench.pairings.new_code().unwrap();
    for n in 0..5 {
        assert_eq!(bench.redeem(WRONG, there(1)), Admission::Wrong, "{n}");
    }
    assert_eq!(bench.redeem(&code, there(1)), Admission::ShutOut, "even with the right one");
    // A whole network guesses: the technician's code is still good.
    for n in 2..200 {
        assert_eq!(bench.redeem(WRONG, there(n)), Admission::Wrong);
    }
    assert!(bench.is_let_in(&code, there(250)));
}

#[test]
fn whoever_is_shut_out_may_try_again_after_ten_minutes_or_with_a_new_code() {
    let bench = bench();
    let shut_out = || {
        for _ in 0..5 {
            bench.redeem(WRONG, there(1));
        }
        assert_eq!(bench.redeem(WRONG, there(1)), Admission::ShutOut);
    };
    bench.pairings.new_code().unwrap();
    shut_out();
    bench.clock.pass(Duration::from_secs(599));
    assert_eq!(bench.redeem(WRONG, there(1)), Admission::ShutOut);
    bench.clock.pass(Duration::from_secs(1));
    assert_eq!(bench.redeem(WRONG, there(1)), Admission::Wrong);
    shut_out();
    // Somebody stands at the terminal and makes another one, in a process of its own.
    let code = bench.other().new_code().unwrap();
    assert!(bench.is_let_in(&code, there(1)));
    // That a code was used up is no new one.
    shut_out();
}

#[test]
fn a_wrong_code_writes_nothing() {
    let bench = bench();
    bench.pairings.new_code().unwrap();
    let path = bench.folder.path().join("bay.pairings");
    let before = path.metadata().unwrap().ino();
    bench.redeem(WRONG, there(1));
    assert_eq!(path.metadata().unwrap().ino(), before);
}

#[test]
fn four_codes_are_open_at_a_time_and_the_oldest_goes_first() {
    let bench = bench();
    let codes: Vec<String> = (0..5).map(|_| bench.pairings.new_code().unwrap()).collect();
    assert!(!bench.is_let_in(&codes[0], there(1)));
    for code in &codes[1..] {
        assert!(bench.is_let_in(code, there(1)));
    }
}

#[test]
fn what_is_revoked_by_another_process_is_shut_out_at_once() {
    let bench = bench();
    let tokens: Vec<String> = (0..3).map(|_| bench.pairings.new_link("wall").unwrap()).collect();
    assert!(tokens.iter().all(|t| bench.pairings.may(t) == Some(May::See)));
    let other = bench.other();
    let id = other.list().unwrap()[1].id;
    assert_eq!(other.revoke(Some(id)).unwrap(), 1);
    assert_eq!(other.revoke(Some(id)).unwrap(), 0);
    let left: Vec<bool> = tokens.iter().map(|t| bench.pairings.may(t).is_some()).collect();
    assert_eq!(left, [true, false, true], "and nobody else");
    let code = other.new_code().unwrap();
    assert_eq!(other.revoke(None).unwrap(), 2);
    assert!(tokens.iter().all(|t| bench.pairings.may(t).is_none()));
    assert!(!bench.is_let_in(&code, there(1)), "nor an open code");
}

#[test]
fn revoking_one_leaves_open_codes_alone() {
    let bench = bench();
    let code = bench.pairings.new_code().unwrap();
    bench.pairings.new_link("wall").unwrap();
    let id = bench.pairings.list().unwrap()[0].id;
    bench.pairings.revoke(Some(id)).unwrap();
    assert!(bench.is_let_in(&code, there(1)));
}

#[test]
fn a_link_that_shows_never_pushes_out_a_browser_that_tells() {
    let bench = bench();
    let code = bench.pairings.new_code().unwrap();
    let Admission::Token(tells) = bench.redeem(&code, there(1)) else { panic!() };
    let links: Vec<String> = (0..PAIRINGS).map(|_| bench.pairings.new_link("wall").unwrap()).collect();
    assert_eq!(bench.pairings.list().unwrap().len(), PAIRINGS);
    assert_eq!(bench.pairings.may(&tells), Some(May::Tell));
    assert_eq!(bench.pairings.may(&links[0]), None, "the oldest link");
    assert!(links[1..].iter().all(|t| bench.pairings.may(t) == Some(May::See)));
    let ids: Vec<u32> = bench.pairings.list().unwrap().iter().map(|p| p.id).collect();
    assert!(ids.windows(2).all(|w| w[0] < w[1]), "numbers are not used again: {ids:?}");
}

#[test]
fn the_oldest_browser_goes_where_all_tell() {
    let bench = bench();
    let mut tokens = Vec::new();
    for n in 0..=PAIRINGS {
        let code = bench.pairings.new_code().unwrap();
        let Admission::Token(token) = bench.redeem(&code, there(1)) else { panic!("{n}") };
        tokens.push(token);
    }
    assert_eq!(bench.pairings.may(&tokens[0]), None);
    assert_eq!(bench.pairings.may(&tokens[1]), Some(May::Tell));
    // A link that has no better claim than any of them is let in all the same: a person asked for it.
    let link = bench.pairings.new_link("wall").unwrap();
    assert_eq!(bench.pairings.may(&link), Some(May::See));
}

#[test]
fn names_are_kept_short_and_show_what_they_are() {
    let bench = bench();
    bench.pairings.new_link(&format!("wa\u{1b}ll\u{202e}{}", "x".repeat(99))).unwrap();
    let name = &bench.pairings.list().unwrap()[0].name;
    assert!(name.starts_with("wallxx") && name.chars().count() == 60, "{name}");
}

#[test]
fn neither_codes_nor_tokens_lie_in_the_file_and_nobody_else_reads_it() {
    use std::os::unix::fs::PermissionsExt as _;
    let bench = bench();
    let (code, token) = (bench.pairings.new_code().unwrap(), bench.pairings.new_link("wall").unwrap());
    bench.pairings.reached_at(vec!["http://192.0.2.7:8600".to_owned()]).unwrap();
    assert_eq!(bench.other().urls().unwrap(), ["http://192.0.2.7:8600"]);
    for file in std::fs::read_dir(bench.folder.path()).unwrap().map(Result::unwrap) {
        let text = std::fs::read_to_string(file.path()).unwrap();
        assert!(!text.contains(&code) && !text.contains(&token), "{:?}", file.path());
        assert_eq!(file.metadata().unwrap().permissions().mode() & 0o777, 0o600, "{:?}", file.path());
    }
}

#[test]
fn a_file_that_does_not_read_lets_nobody_in_and_is_told() {
    let bench = bench();
    let token = bench.pairings.new_link("wall").unwrap();
    std::fs::write(bench.folder.path().join("bay.pairings"), "{").unwrap();
    assert_eq!(bench.pairings.may(&token), None);
    let said = bench.pairings.redeem(WRONG, "x", there(1)).unwrap_err().to_string();
    assert!(said.contains("bay.pairings"), "{said}");
}

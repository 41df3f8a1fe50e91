//! What each cell has to keep, and the tables of outcomes in `docs/adapters.md`.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::Path;
use std::time::Duration;

use rehearsal::FaultKind;
use rehearsal::firmware::{self, Habit};

use crate::play::FAULT_FROM_S;
use crate::{BUSES, Cell};

/// The longest time without a temperature that the fault itself may cause; the others: [`USUAL`].
const DEADLINES: &[(FaultKind, Deadline)] = &[
    // The fault itself lasts 30 s; what is over is the adapter's start and the vehicle's.
    (FaultKind::AdapterUnplugged, Deadline::Gap(42)),
    // Commands and data come 2.5 s late or without a prompt; each costs a resynchronisation.
    (FaultKind::JoinedReplies, Deadline::Gap(45)),
    (FaultKind::LateReply, Deadline::Gap(45)),
    (FaultKind::PromptMissing, Deadline::Gap(25)),
    // A search of 25 s after a known protocol was tried for 10 s, and the pause between.
    (FaultKind::SlowSearch, Deadline::Gap(55)),
    (FaultKind::BusInitError, Deadline::Gap(25)),
    (FaultKind::UnableToConnect, Deadline::Gap(35)),
    // Three of a kind in a row make everything wait, so as not to hammer a vehicle that has trouble.
    (FaultKind::BusError, Deadline::Gap(25)),
    (FaultKind::BusTrouble, Deadline::Gap(25)),
    (FaultKind::LongLine, Deadline::Gap(20)),
    // The adapter is mute until its port is opened again: the whole ladder of attempts, 16 s, before that.
    (FaultKind::RequestHangs, Deadline::Gap(25)),
    (FaultKind::RequestResets, Deadline::Gap(15)),
    (FaultKind::RequestKillsLink, Deadline::Gap(20)),
    (FaultKind::Stalls, Deadline::Gap(15)),
    // Half a minute, and the way back.
    (FaultKind::Brownout, Deadline::Gap(42)),
    // A bus with a slow start is lost again before it is read; how soon it is read afterwards is another claim.
    (FaultKind::FlakyLink, Deadline::Patchy),
    (FaultKind::PendingForever, Deadline::Gap(20)),
    (FaultKind::SilentReset, Deadline::Gap(15)),
    (FaultKind::LpAlert, Deadline::Gap(15)),
    (FaultKind::ReEnumerated, Deadline::Gap(15)),
    (FaultKind::CutInReply, Deadline::Gap(15)),
    (FaultKind::Cranking, Deadline::Gap(30)),
    (FaultKind::HalfOpen, Deadline::Gap(35)),
    (FaultKind::BusAsleep, Deadline::Gap(80)),
    (FaultKind::IgnitionOff, Deadline::Never),
    (FaultKind::WrongEcu, Deadline::Never),
];

/// How long readings may be away.
#[derive(Debug, Clone, Copy)]
pub enum Deadline {
    /// So many seconds.
    Gap(u64),
    /// From the fault on to the end.
    Never,
    /// As it comes, as long as the fault lasts.
    Patchy,
}

const USUAL: Deadline = Deadline::Gap(10);
/// From the opening to the first temperature, where nothing is wrong; a slow start of the bus and a search through
/// all protocols included.
const FIRST_S: u64 = 25;

const fn deadline(fault: Option<FaultKind>) -> Deadline {
    let Some(fault) = fault else { return USUAL };
    let mut at = 0;
    while at < DEADLINES.len() {
        if DEADLINES[at].0 as usize == fault as usize {
            return DEADLINES[at].1;
        }
        at += 1;
    }
    USUAL
}

/// Whether this vehicle can be read through it: two control units answer, so their names must be shown.
fn reads(firmware: &rehearsal::Firmware) -> bool {
    firmware.reads() && !firmware.has(Habit::HeadersStay)
}

/// Whether temperatures came, and came back, in time; through what is no adapter none may come.
pub fn reads_in_time(cell: &Cell) -> bool {
    let came = &cell.came;
    if !reads(cell.firmware) {
        return came.readings == 0 && !came.last.is_empty();
    }
    let first = came.first.is_some_and(|at| at.as_millis() <= FIRST_S * 1_000);
    // The engine's control unit must be heard too, not only the one that is asked by name.
    let both = cell.fault.is_some() || came.coolants > 0;
    first
        && both
        && match deadline(cell.fault) {
            _ if is_mute(cell) => true,
            Deadline::Gap(seconds) => came.gap <= Duration::from_secs(seconds + extra_s(cell.firmware)),
            Deadline::Patchy => true,
            Deadline::Never => came.gap <= came.tail + Duration::from_secs(5),
        }
}

/// Whether the fault made the link be opened again, of an adapter that serves the first one only: then a hand is needed.
fn is_mute(cell: &Cell) -> bool {
    cell.firmware.has(Habit::FirstLinkOnly) && cell.came.openings > 1
}

/// What some adapters take more on the way back, s.
fn extra_s(firmware: &rehearsal::Firmware) -> u64 {
    let of = |habit: &Habit| match habit {
        // Nobody is let in for 9 s.
        Habit::SlowToLetIn => 10,
        // The protocol that it names is tried first, in vain, and a pause follows.
        Habit::NumberWrong => 10,
        // Each of some twenty words of the set-up takes 0.3 s, or the first after each pause 1.5 s.
        Habit::LatePrompt | Habit::WakesSlowly => 12,
        // Two losses more until that is found out.
        Habit::VoltageCloses | Habit::ResetsOnSt => 10,
        _ => 0,
    };
    let slow = if firmware.reset_ms > 3_000 { 10 } else { 0 };
    // It looks through all protocols each time, up to 7 s.
    let searches = if firmware.refuses.contains(&"TP") { 5 } else { 0 };
    firmware.habits.iter().map(of).max().unwrap_or(0).max(slow).max(searches)
}

/// Whether a temperature came in time once the fault was over; through what is no adapter none may come.
pub fn is_alive(cell: &Cell) -> bool {
    if !reads(cell.firmware) {
        return cell.came.readings == 0;
    }
    is_mute(cell) || cell.came.alive.is_some_and(|after| after <= adapter::Driver::READS_WITHIN)
}

/// On CAN, an adapter by the book is read again within 2 s of its device's return, its own start (0.8 s) included; the
/// older buses take their start on top, copies what they need more than an original.
pub fn late_returns(cells: &[Cell]) -> Vec<String> {
    let by_the_book = ["original-2.1", "original-2.0", "original-1.4b", "original-1.3a", "other-family"];
    let mut late = Vec::new();
    for cell in cells {
        let returns = matches!(
            cell.fault,
            Some(FaultKind::AdapterUnplugged | FaultKind::ReEnumerated | FaultKind::CutInReply)
        );
        let held = by_the_book.contains(&cell.firmware.name) && cell.bus.name == BUSES[0];
        if returns && held && !(Duration::from_millis(1)..=RETURN).contains(&cell.came.back) {
            late.push(format!("{} {:?}: back after {:?}", cell.firmware.name, cell.fault, cell.came.back));
        }
    }
    late
}

/// From the device's return to a temperature.
const RETURN: Duration = Duration::from_secs(2);

/// The page's tables are those of this run; `BLESS=1` writes them.
pub fn hold_against_the_page(cells: &[Cell]) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/adapters.md");
    let page = std::fs::read_to_string(&path).unwrap();
    let (begin, end) = ("<!-- outcomes: begin -->\n", "<!-- outcomes: end -->\n");
    let (before, rest) = page.split_once(begin).expect("the page has a place for the tables");
    let (there, after) = rest.split_once(end).expect("the place has an end");
    let want = format!("{}\n{}", by_firmware(cells), by_fault(cells));
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&path, format!("{before}{begin}{want}{end}{after}")).unwrap();
    } else {
        assert!(there == want, "docs/adapters.md has other outcomes; look at them, then BLESS=1");
    }
}

fn by_firmware(cells: &[Cell]) -> String {
    let mut text = "| firmware | first temperature after, s (CAN, ISO 14230, J1850) | temperatures in 2 min | quirks that were named |\n\
                    | --- | --- | --- | --- |\n"
        .to_owned();
    for one in firmware::ALL {
        let mine: Vec<&Cell> = BUSES
            .iter()
            .filter_map(|bus| {
                cells.iter().find(|c| c.firmware.name == one.name && c.fault.is_none() && c.bus.name == *bus)
            })
            .collect();
        let firsts: Vec<String> = mine
            .iter()
            .map(|c| c.came.first.map_or_else(|| "none".to_owned(), |at| format!("{:.1}", at.as_secs_f64())))
            .collect();
        let counts: Vec<String> = mine.iter().map(|c| c.came.readings.to_string()).collect();
        let quirks: BTreeSet<&str> =
            mine.iter().flat_map(|c| c.came.quirks.iter().map(|quirk| quirk.word())).collect();
        let quirks: Vec<&str> = quirks.into_iter().collect();
        let quirks = if quirks.is_empty() {
            mine.first().filter(|_| !reads(one)).map_or_else(|| "none".to_owned(), |c| c.came.last.clone())
        } else {
            quirks.join(", ")
        };
        let _ =
            writeln!(text, "| `{}` | {} | {} | {quirks} |", one.name, firsts.join(", "), counts.join(", "));
    }
    text
}

fn by_fault(cells: &[Cell]) -> String {
    let reading = firmware::ALL.iter().filter(|one| reads(one)).count();
    let mut text = format!(
        "Each cell: the longest time without a temperature, median and longest over the {reading} firmwares that read (without \
         `copy-first-link-only` where its port had to be opened again: then only a hand helps); the fault begins at {FAULT_FROM_S} s, the \
         run ends at 150 s.\n\n| fault | may take | CAN 11/500 | ISO 14230 fast | J1850 VPW |\n| --- | --- | --- | --- | --- |\n"
    );
    let faults = std::iter::once(None).chain(crate::faults_of_the_link().map(Some));
    for fault in faults {
        let may = match deadline(fault) {
            Deadline::Gap(seconds) => format!("{seconds} s"),
            Deadline::Never | Deadline::Patchy => "all".to_owned(),
        };
        let _ = write!(text, "| `{}` | {may} |", fault.map_or("none", FaultKind::word));
        for bus in BUSES {
            let mut gaps: Vec<Duration> = cells
                .iter()
                .filter(|c| c.fault == fault && c.bus.name == bus && reads(c.firmware) && !is_mute(c))
                .map(|c| c.came.gap)
                .collect();
            gaps.sort_unstable();
            let median = gaps.get(gaps.len() / 2).copied().unwrap_or_default();
            let longest = gaps.last().copied().unwrap_or_default();
            let _ = write!(text, " {:.1} / {:.1} s |", median.as_secs_f64(), longest.as_secs_f64());
        }
        text.push('\n');
    }
    text
}

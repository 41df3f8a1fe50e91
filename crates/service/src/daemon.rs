//! The loop around the bay: it moves bytes, events and answers, and decides nothing.
//!
//! In: bytes from the link, wants of the clients, word from the journal, the clock. Out: bytes to the link,
//! batches to the journal, lines to the hub. The deadline is compared with the clock on every wake-up, whoever
//! woke us. Nothing in here waits for a client or for the disk.

use std::collections::VecDeque;
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

use adapter::Opener;
use adapter::recording::Traffic;
use events::{Body, Fault, LinkChange, Refusal, Seq, Sheet, Utc, Word};
use find::Place;
use tokio::net::UnixListener;
use tokio::sync::{mpsc, oneshot, watch};
use units::{Clock, Mono};

use crate::bay::{Bay, Finder, Moment};
use crate::clock::{Machine, NEVER};
use crate::error::ServiceError;
use crate::found::KeptSearch;
use crate::hub::Hub;
use crate::journal::{Journal, Restored, Unwritten};
use crate::line::{Line, LineEvent};
use crate::memory::Memory;
use crate::outbox::Outbox;
use crate::recorder::Recorder;
use crate::socket::{self, Door, Limits, Shared, Want};
use crate::status::{Disk, Looked, Notes};

/// Wants of clients that may wait for the loop.
/// Own choice: one for each place at the socket (`Limits`), so that none waits for another's answer.
const WANTS: usize = 64;
/// Clients that may wait for their first line; more wait at the door, so that a storm of them takes nobody's place.
/// Own choice: a greeting takes milliseconds; a storm of clients must take no place of who is in.
const GREETINGS: usize = 8;
/// After a client could not be accepted, none is for so long.
/// Own choice: descriptors run out for as long as somebody holds them; at once it would spin, and no screen waits
/// longer for a look.
const ACCEPT_PAUSE: Duration = Duration::from_millis(1_000);
/// The last lines may take so long in all.
/// Own choice: a client that reads has them in milliseconds; one that does not must not hold up the end.
const PARTING: Duration = Duration::from_millis(1_000);
/// The disk may take so long for the last write of an orderly end.
/// Own choice: a card that tidies itself takes seconds; a service manager's 90 s (from memory) are longer.
const LAST_WRITE: Duration = Duration::from_secs(20);
/// The last word where the disk does not take what happens.
const CANNOT_WRITE: &str =
    "the journal cannot be written, so nothing can be promised any more; the daemon stops";

/// Everything a daemon is given.
pub struct Config {
    /// The bay's name.
    pub bay: String,
    /// The sheet for jobs that begin from now on.
    pub sheet: Sheet,
    /// The sheets that can be chosen while no job runs.
    pub sheets: Vec<Sheet>,
    /// Where to listen.
    pub socket: PathBuf,
    /// A group that may use the socket too.
    pub socket_group: Option<String>,
    /// The folder of the journal.
    pub journal: PathBuf,
    /// How the link is opened, now and after every loss; `None`: there is no adapter, everything is told by people.
    pub opener: Option<Arc<dyn Opener>>,
    /// The clock to live by.
    pub clock: Arc<dyn Clock>,
    /// The program's version, for `hello`.
    pub version: String,
    /// The bounds of the socket.
    pub limits: Limits,
    /// What was found the last time.
    pub memory: Memory,
    /// Where everything said on the link is written down, if it is.
    pub recorder: Option<Recorder>,
    /// The machine beside the clock, where it is the same as the last daemon's the readings of the job that runs still count.
    pub machine: Option<Machine>,
    /// A search for the fluid's identifier beside the rest, if there is to be one.
    pub find: Option<FindConfig>,
}

/// A search for the fluid's identifier.
#[derive(Debug)]
pub struct FindConfig {
    /// Where it keeps what it knows.
    pub kept: KeptSearch,
    /// What a table names: asked first.
    pub imported: Vec<Place>,
    /// No sheet was given: nothing can be set, only found.
    pub without_sheet: bool,
}

/// A daemon that listens but does not run yet.
pub struct Daemon {
    bay: Bay,
    outbox: Outbox,
    journal: Journal,
    hub: Arc<Hub>,
    listener: UnixListener,
    socket: PathBuf,
    shared: Shared,
    wants: mpsc::Receiver<Want>,
    line: Line,
    clock: Arc<dyn Clock>,
    snapshots: Vec<oneshot::Sender<Box<events::Snapshot>>>,
    promised: VecDeque<(Seq, mpsc::Sender<Word>, Word)>,
    door: Door,
    memory: Memory,
    recorder: Option<Recorder>,
    /// When it started: a recording begins there.
    began: Mono,
    kept: Option<KeptSearch>,
    /// Who is told that the loop turns.
    pulse: Option<Pulse>,
    /// What a status is made of.
    notes: Notes,
    /// Sheets that were written since it started.
    sheets: Option<watch::Receiver<Vec<Sheet>>>,
}

/// Tells an observer in the same process how far the daemon has come; the rehearsal's lock-step rests on it.
#[derive(Clone)]
pub struct Progress(Arc<Hub>);

impl Progress {
    /// The number of the last event that clients may see.
    pub fn visible(&self) -> Seq {
        self.0.last()
    }

    /// Whether everything that happened is visible, and the disk at rest.
    pub fn settled(&self) -> bool {
        self.0.settled()
    }
}

/// Whoever watches that the loop turns.
struct Pulse {
    every: Duration,
    due: Mono,
    beat: Box<dyn Fn() + Send>,
}

impl Pulse {
    /// Beats where it is due.
    fn turn(&mut self, now: Mono) {
        if now >= self.due {
            (self.beat)();
            self.due = now.after(self.every);
        }
    }
}

type Writing = oneshot::Receiver<Result<(), Unwritten>>;

/// The sheets, once they are others than before; nothing where nobody brings any more.
async fn newer(sheets: &mut Option<watch::Receiver<Vec<Sheet>>>) -> Option<Vec<Sheet>> {
    let Some(receiver) = sheets else { return std::future::pending().await };
    receiver.changed().await.ok()?;
    Some(receiver.borrow_and_update().clone())
}

/// What woke the loop.
enum Woken {
    Line(LineEvent),
    Client(Option<Want>),
    Accepted(std::io::Result<tokio::net::UnixStream>),
    Written(Result<(), Unwritten>),
    Timer,
    Sheets(Option<Vec<Sheet>>),
    Stop,
}

impl Daemon {
    /// Opens the journal, folds the last job, and listens.
    ///
    /// # Errors
    /// [`ServiceError`] where the journal or the socket cannot be had.
    pub fn start(config: Config) -> Result<Self, ServiceError> {
        let listener = socket::listen(&config.socket, config.socket_group.as_deref())?;
        let (journal, restored) = Journal::open(&config.journal, &config.bay)?;
        let now = moment(&*config.clock);
        let boot = format!("{:x}-{:x}", now.utc.as_millis(), std::process::id());
        let Restored { next, last_job, facts, readings, repaired, damaged, doubtful, note: _ } = restored;
        if let Some(repaired) = repaired {
            tracing::warn!(detail = %repaired, "{}", Fault::JournalRepaired.says());
        }
        let mut bay = Bay::new(config.sheet, next, last_job).with_sheets(config.sheets);
        if config.opener.is_none() {
            bay = bay.without_adapter().ok_or(ServiceError::NeedsAdapter)?;
        }
        let kept = config.find.map(|find| {
            let resumed = find.kept.read().and_then(|text| Finder::resume(&text, &find.imported, now));
            bay.find(resumed.unwrap_or_else(|| Finder::new(find.imported)), find.without_sheet);
            find.kept
        });
        bay.begin_with(config.memory.warmings());
        bay.on_machine(config.machine);
        bay.restore(&facts, &readings, now);
        let notes = Notes::new(now.mono, facts.iter().chain(&readings));
        if let Some(behind) = notes.clock_behind(now.utc) {
            let behind = behind.as_secs();
            tracing::warn!(now = %now.utc, behind_seconds = behind, "{}", events::Ailment::ClockBehind.says());
        }
        if let Some(protocol) = config.memory.protocol(bay.vehicle()) {
            bay.remember(protocol);
        }
        bay.boot(&boot, &config.version, now);
        if let Some(damaged) = damaged {
            bay.damaged(&damaged, doubtful, now);
        }
        let last = Seq(next.0.saturating_sub(1));
        let hub = Arc::new(Hub::new(last));
        let (want, wants) = mpsc::channel(WANTS);
        let hello = Word::Hello {
            protocol: events::PROTOCOL,
            version: config.version,
            bay: config.bay,
            boot,
            last_seq: last,
        };
        let shared = Shared {
            hub: Arc::clone(&hub),
            wants: want,
            journal: journal.reader(),
            clock: Arc::clone(&config.clock),
            limits: config.limits,
            hello,
        };
        Ok(Self {
            bay,
            outbox: Outbox::default(),
            journal,
            hub,
            listener,
            socket: config.socket,
            shared,
            wants,
            line: Line::new(config.opener),
            clock: config.clock,
            snapshots: Vec::new(),
            promised: VecDeque::new(),
            door: Door::new(config.limits.clients),
            memory: config.memory,
            recorder: config.recorder,
            began: now.mono,
            kept,
            pulse: None,
            notes,
            sheets: None,
        })
    }

    /// The sheets that can be chosen come from here, too, each time that they are others.
    #[must_use]
    pub fn with_sheets_from(mut self, sheets: watch::Receiver<Vec<Sheet>>) -> Self {
        self.sheets = Some(sheets);
        self
    }

    /// `beat` is called by the loop itself, at its start and then `every` so often at least: what does not turn any more falls silent.
    #[must_use]
    pub fn with_pulse(mut self, every: Duration, beat: impl Fn() + Send + 'static) -> Self {
        self.pulse = Some(Pulse { every, due: Mono::ZERO, beat: Box::new(beat) });
        self
    }

    /// How far it has come.
    pub fn progress(&self) -> Progress {
        Progress(Arc::clone(&self.hub))
    }

    /// Runs until `stop` is ready, or until nothing can be promised any more.
    ///
    /// # Errors
    /// [`ServiceError::JournalWrite`]: facts could not be made durable. Clients have been told; a front end
    /// shows no verdict of ours after that.
    pub async fn run(mut self, stop: impl Future<Output = ()>) -> Result<(), ServiceError> {
        tokio::pin!(stop);
        let mut writing: Option<Writing> = None;
        let mut accept_from = Mono::ZERO;
        let ended = loop {
            let now = moment(&*self.clock);
            self.go_on(now, &mut writing);
            if let Some(pulse) = &mut self.pulse {
                pulse.turn(now.mono);
            }
            if self.outbox.is_full() {
                self.break_promises();
                self.journal.leave();
                let path = self.journal.path().to_path_buf();
                let why = "the disk has taken nothing for so long that too much waits for it".to_owned();
                break Err(ServiceError::JournalWrite { path, why });
            }
            let pause = (now.mono < accept_from).then_some(accept_from);
            let may_enter = pause.is_none() && self.snapshots.len() < GREETINGS;
            let deadline = [self.deadline(), pause].into_iter().flatten().min();
            let woken = tokio::select! {
                biased;
                () = &mut stop => Woken::Stop,
                result = settle(&mut writing) => Woken::Written(result),
                event = self.line.next() => Woken::Line(event),
                want = self.wants.recv() => Woken::Client(want),
                sheets = newer(&mut self.sheets) => Woken::Sheets(sheets),
                stream = self.listener.accept(), if may_enter => Woken::Accepted(stream.map(|(s, _)| s)),
                () = self.clock.sleep_until(deadline.unwrap_or(NEVER)), if deadline.is_some() => Woken::Timer,
            };
            let now = moment(&*self.clock);
            match woken {
                Woken::Stop => break Ok(()),
                Woken::Timer | Woken::Client(None) => {}
                Woken::Sheets(Some(sheets)) => self.bay.offer(sheets, now),
                Woken::Sheets(None) => self.sheets = None,
                Woken::Written(Ok(())) => {
                    writing = None;
                    self.outbox.written();
                    self.keep_promises();
                    if let Some(left) = self.outbox.poll_left_out() {
                        tracing::warn!(count = left.count, "the disk was too slow; readings were not kept");
                        self.bay.left_out(left.count, left.first, left.last, now);
                    }
                }
                Woken::Written(Err(unwritten)) => {
                    // That answer has been heard; it is not waited for again on the way out.
                    writing = None;
                    self.break_promises();
                    let (path, why) = (self.journal.path().to_path_buf(), unwritten.to_string());
                    break Err(match unwritten {
                        Unwritten::Failed(_) => ServiceError::JournalWrite { path, why },
                        Unwritten::Gone(_) => ServiceError::JournalGone { path, why },
                    });
                }
                Woken::Line(event) => self.line_event(event, now),
                Woken::Client(Some(want)) => self.answer(want, now),
                Woken::Accepted(Ok(stream)) => {
                    self.door.welcome(stream, &self.shared, self.hub.last());
                    // One a turn: whoever comes and goes as fast as he can waits for those who are in.
                    tokio::task::yield_now().await;
                }
                Woken::Accepted(Err(e)) => {
                    tracing::warn!(error = %e, "client not accepted");
                    accept_from = now.mono.after(ACCEPT_PAUSE);
                }
            }
        };
        self.finish(writing, &ended).await;
        ended
    }

    /// All that can be done without waiting: what is due, what is to be sent, what is to be written and shown.
    fn go_on(&mut self, now: Moment, writing: &mut Option<Writing>) {
        self.bay.wake(now);
        self.reopen_if_wanted(now);
        if let Some(late) = self.line.give_up_if_due(now.mono) {
            self.line_event(LineEvent::NotOpened(late), now);
        }
        if let Some(device) = self.line.open_if_due(now.mono) {
            self.bay.opening(&device, now);
        }
        while let Some(bytes) = self.bay.poll_bytes(now) {
            self.record(now.mono, || Traffic::Host(bytes.clone()));
            self.line.send(&bytes);
        }
        if let Some(rate) = self.bay.poll_rate() {
            self.line.set_rate(rate);
        }
        // Choosing the next line may have shown that there is none to be had here.
        self.reopen_if_wanted(now);
        self.move_events(writing, now.mono);
        if let Some(warming) = self.bay.poll_learned() {
            self.memory.note_warming(self.bay.vehicle(), &warming);
        }
        if let Some(text) = self.bay.finder().and_then(|finder| finder.poll_keep(now)) {
            self.keep(&text);
        }
    }

    /// What the search knows goes into its file: where that fails, the next start begins anew.
    fn keep(&self, text: &str) {
        let Some(kept) = &self.kept else { return };
        if let Err(e) = kept.write(text) {
            tracing::warn!(path = %kept.path().display(), error = %e, "the search is not kept");
        }
    }

    /// Closes the port where the bay has no use for it any more; the line opens it again by itself.
    fn reopen_if_wanted(&mut self, now: Moment) {
        if self.bay.wants_reopen() {
            self.record(now.mono, || Traffic::Closed { why: "the adapter does not answer".to_owned() });
            self.line.close(now.mono);
            self.bay.link_closed("the adapter does not answer; its port is opened again", now);
        }
    }

    fn record(&self, at: Mono, what: impl FnOnce() -> Traffic) {
        if let Some(recorder) = &self.recorder {
            recorder.note(Mono::ZERO.after(at.since(self.began)), what());
        }
    }

    fn line_event(&mut self, event: LineEvent, now: Moment) {
        match event {
            LineEvent::Bytes(n) => {
                self.record(now.mono, || Traffic::Adapter(self.line.heard(n).to_vec()));
                self.bay.bytes(self.line.heard(n), now);
                if let Some(protocol) = self.bay.protocol() {
                    self.memory.note_protocol(self.bay.vehicle(), protocol);
                }
            }
            LineEvent::Sent => {}
            LineEvent::Opened(rate) => {
                self.record(now.mono, || Traffic::Opened);
                if let Some(rate) = rate {
                    self.memory.note_rate(&self.line.device(), rate);
                }
                self.bay.link_opened(rate, now);
            }
            LineEvent::NotOpened(e) => {
                self.record(now.mono, || Traffic::Closed { why: e.to_string() });
                self.line.close(now.mono);
                self.bay.link_closed(&format!("{e}; {}", e.remedy()), now);
            }
            LineEvent::Gone(why) => {
                self.record(now.mono, || Traffic::Closed { why: why.clone() });
                self.line.close(now.mono);
                self.bay.link_closed(&format!("the adapter is gone: {why}"), now);
            }
        }
    }

    /// Events from the bay to the outbox, from the outbox to the journal and to the hub.
    fn move_events(&mut self, writing: &mut Option<Writing>, now: Mono) {
        while let Some(event) = self.bay.poll_event() {
            self.hub.emitted(event.seq);
            self.notes.passes(&event, self.bay.gated_on());
            self.outbox.push(event);
        }
        if writing.is_none()
            && let Some(batch) = self.outbox.poll_write(now)
        {
            *writing = Some(self.journal.append(batch));
        }
        self.hub.writing(writing.is_some());
        self.notes.writing(writing.is_some(), now);
        self.show();
    }

    fn show(&mut self) {
        while let Some(row) = self.outbox.poll_visible() {
            log(&row.event.body);
            self.hub.publish(row);
        }
        if self.outbox.all_visible() && !self.snapshots.is_empty() {
            let snapshot = self.bay.snapshot(moment(&*self.clock));
            for wanted in self.snapshots.drain(..) {
                let _ = wanted.send(Box::new(snapshot.clone()));
            }
        }
    }

    /// Answers that were waiting for the disk. A client whose answers pile up loses them, not our time.
    fn keep_promises(&mut self) {
        self.show();
        while let Some((seq, client, word)) = self.promised.pop_front() {
            if seq > self.outbox.durable() {
                self.promised.push_front((seq, client, word));
                break;
            }
            let _ = client.try_send(word);
        }
    }

    /// What was not yet on disk is refused after all: told again, it may be accepted by the next daemon.
    fn break_promises(&mut self) {
        for (_, client, word) in self.promised.drain(..) {
            if let Word::Accepted { id, .. } = word {
                let _ = client.try_send(refused(id));
            }
        }
    }

    fn answer(&mut self, want: Want, now: Moment) {
        match want {
            Want::Snapshot(wanted) => self.snapshots.push(wanted),
            Want::Status(asked) => drop(asked.send(Box::new(self.look(now)))),
            Want::Tell(told, client) if !self.outbox.takes_requests() => {
                drop(client.try_send(refused(told.id)));
            }
            Want::Tell(told, client) => match self.bay.tell(&told, now) {
                word @ Word::Accepted { seq, .. } if seq > self.outbox.durable() => {
                    self.promised.push_back((seq, client, word));
                }
                word => drop(client.try_send(word)),
            },
        }
    }

    /// How the bay is, as far as the loop knows.
    fn look(&self, now: Moment) -> Looked {
        let disk = Disk {
            path: self.journal.path(),
            durable: self.outbox.durable(),
            waiting: self.outbox.waiting(),
        };
        let port = (self.line.device(), self.line.is_open());
        self.notes.look(&self.shared.hello, self.bay.snapshot(now), port, disk, self.bay.gated_on(), now)
    }

    fn deadline(&self) -> Option<Mono> {
        let pulse = self.pulse.as_ref().map(|pulse| pulse.due);
        [self.bay.deadline(), self.outbox.deadline(), self.line.deadline(), pulse].into_iter().flatten().min()
    }

    /// Writes what is left, tells every client why it ends, and removes the socket.
    async fn finish(&mut self, writing: Option<Writing>, ended: &Result<(), ServiceError>) {
        let mut whole = ended.is_ok();
        let now = moment(&*self.clock);
        if let Some(text) = self.bay.finder().and_then(|finder| finder.keep(now)) {
            self.keep(&text);
        }
        if let Some(writing) = writing.filter(|_| whole) {
            whole = self.last_write(writing).await;
        }
        let rest = self.outbox.rest();
        if whole && !rest.is_empty() {
            let writing = self.journal.append(rest);
            whole = self.last_write(writing).await;
        }
        self.keep_promises();
        self.break_promises();
        self.wants.close();
        while let Ok(want) = self.wants.try_recv() {
            if let (Want::Tell(told, client), false) = (want, whole) {
                let _ = client.try_send(refused(told.id));
            }
        }
        self.snapshots.clear();
        self.hub.part(if whole { "the daemon stops" } else { CANNOT_WRITE });
        // Who does not read its last line is not waited for.
        let _ = tokio::time::timeout(PARTING, self.hub.all_gone()).await;
        let _ = std::fs::remove_file(&self.socket);
    }

    /// Whether it came to the disk; one that hangs is not waited for without end.
    async fn last_write(&mut self, writing: Writing) -> bool {
        let answer = tokio::time::timeout(LAST_WRITE, writing).await;
        if answer.is_err() {
            self.journal.leave();
        }
        let written = matches!(answer, Ok(Ok(Ok(()))));
        if written {
            self.outbox.written();
        }
        written
    }
}

fn refused(id: String) -> Word {
    let reason = Refusal::JournalFull;
    Word::Refused { id: Some(id), reason, says: reason.says().to_owned() }
}

/// What the person who started the daemon should see without a client: `warn` means that someone should act.
fn log(body: &Body) {
    match body {
        Body::Link(LinkChange::Lost { detail }) => tracing::warn!(%detail, "adapter lost"),
        Body::Link(LinkChange::VehicleSilent { detail, tried }) => {
            tracing::warn!(%detail, ?tried, "vehicle does not answer")
        }
        Body::Link(LinkChange::Protocol { protocol, control_units }) => {
            tracing::info!(%protocol, ?control_units, "vehicle answers");
        }
        Body::Fault { fault, detail, .. } if fault.is_warned_of() => {
            tracing::warn!(detail = detail.as_deref().unwrap_or_default(), "{}", fault.says());
        }
        Body::Verdict { verdict, reasons, .. } => tracing::info!(%verdict, ?reasons, "verdict"),
        _ => {}
    }
}

fn moment(clock: &dyn Clock) -> Moment {
    Moment { mono: clock.now(), utc: Utc::from_millis(clock.wall_millis()) }
}

async fn settle(writing: &mut Option<Writing>) -> Result<(), Unwritten> {
    let ended = || Err(Unwritten::Failed("the journal's thread has ended".to_owned()));
    match writing {
        Some(answer) => answer.await.unwrap_or_else(|_| ended()),
        None => std::future::pending().await,
    }
}

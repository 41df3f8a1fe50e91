//! From the bay to the broker, until somebody ends it.
//!
//! In: the bay's events as they come, and those that the broker has not had. Out: facts in their order, samples of now, the state, whether
//! the bay is there. While the broker cannot be reached the bay is not listened to: its journal keeps all, and is asked for it. What is
//! caught up goes as fast as the broker takes it and no faster; old samples are left out. Not here: one connection (`session.rs`), what is said (`message.rs`).

use std::collections::HashMap;
use std::sync::Arc;
use std::time::Duration;

use client::{Client, Daemon};
use events::{Durability, Event, Seq, Snapshot, SocketLine, Verdict, Word};
use tokio::time::{Instant, sleep};
use tokio_rustls::rustls::ClientConfig;

use crate::broker::{Broker, Login};
use crate::error::RelayError;
use crate::message::{self, Bay, Presence};
use crate::place::Place;
use crate::session::{Answer, Ended, Needs, Session, UNDER_WAY};
use crate::waits::Waits;

/// What the relay needs.
#[derive(Debug)]
pub struct Options {
    /// Whose daemon.
    pub daemon: Daemon,
    /// Its name at the broker.
    pub bay: Bay,
    /// Which broker.
    pub broker: Broker,
    /// As whom; absent where the broker asks nobody.
    pub login: Option<Login>,
    /// How the broker is known; absent where nothing is secured.
    pub secured: Option<Arc<ClientConfig>>,
    /// What names persons and vehicles goes out too.
    pub personal: bool,
}

/// What is told to whoever started the relay.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum News {
    /// The broker takes what comes.
    Connected,
    /// It cannot be reached, or was lost; it is tried again.
    BrokerLost(String),
    /// The bay cannot be reached, or was lost; it is tried again.
    BayLost(String),
    /// The bay is heard; so many events are to be caught up.
    Hears(u64),
    /// Nobody at the broker wants facts or has them kept: they stay here, and are sent when somebody does.
    Unread,
    /// A fact was too large for the broker; its number and kind went instead.
    TooLarge(Seq),
}

/// Runs until `ends` is done. Waits out whatever passes by itself.
///
/// # Errors
/// Where somebody must change something before it can go on.
pub async fn run(
    options: Options,
    place: &mut Place,
    ends: impl Future<Output = ()>,
    mut tell: impl FnMut(News),
) -> Result<(), RelayError> {
    tokio::pin!(ends);
    let Options { daemon, bay, broker, login, secured, personal } = options;
    let needs = Needs { broker, login, secured, bay: bay.clone() };
    let mut waits = Waits::default();
    loop {
        let opened = tokio::select! {
            () = &mut ends => return Ok(()),
            opened = Session::open(&needs) => opened,
        };
        let ended = match opened {
            Ok(session) => {
                tell(News::Connected);
                waits.well();
                let mut flow = Flow { daemon: &daemon, bay: &bay, personal, session, place, held: None };
                let ended = tokio::select! {
                    () = &mut ends => None,
                    ended = flow.go_on(&mut tell) => Some(ended),
                };
                let Some(ended) = ended else {
                    flow.session.close((bay.presence(), Presence::lost("relay-stopped"))).await;
                    place.keep()?;
                    return Ok(());
                };
                place.broke();
                place.keep()?;
                ended
            }
            Err(ended) => ended,
        };
        match ended {
            Ended::For(error) => return Err(error),
            Ended::Broke(why) => tell(News::BrokerLost(why)),
        }
        tokio::select! {
            () = &mut ends => return Ok(()),
            () = sleep(waits.next()) => {}
        }
    }
}

/// One connection to the broker, with one connection to the bay after the other.
struct Flow<'a> {
    daemon: &'a Daemon,
    bay: &'a Bay,
    personal: bool,
    session: Session,
    place: &'a mut Place,
    /// Since when nobody at the broker wants facts.
    held: Option<Instant>,
}

/// Why the bay is heard no more.
enum Unheard {
    /// It is lost.
    Lost(String),
    /// Facts were held back; they are asked for again.
    Again,
}

impl Flow<'_> {
    /// Until the connection to the broker ends.
    async fn go_on(&mut self, tell: &mut impl FnMut(News)) -> Ended {
        let (mut waits, daemon) = (Waits::default(), self.daemon);
        loop {
            let opened = tokio::select! {
                ended = self.broker() => return ended,
                opened = Client::connect(daemon) => opened,
            };
            let why = match opened {
                Ok(client) => {
                    waits.well();
                    match self.pass_on(client, tell).await {
                        Ok(Unheard::Lost(why)) => why,
                        Ok(Unheard::Again) => continue,
                        Err(ended) => return ended,
                    }
                }
                Err(error) => error.to_string(),
            };
            tell(News::BayLost(why));
            if let Err(ended) = self.presence(&Presence::lost("daemon-lost")).await {
                return ended;
            }
            tokio::select! {
                ended = self.broker() => return ended,
                () = sleep(waits.next()) => {}
            }
        }
    }

    /// What the broker says while nothing comes from the bay; only its end is news.
    async fn broker(&mut self) -> Ended {
        loop {
            match self.session.next().await {
                Ok(Answer::Taken(seq)) => self.place.taken(seq),
                Ok(Answer::Unread(_) | Answer::Other) => {}
                Err(ended) => return ended,
            }
        }
    }

    /// Until the bay is lost, or asked again.
    async fn pass_on(&mut self, mut client: Client, tell: &mut impl FnMut(News)) -> Result<Unheard, Ended> {
        let last = client.snapshot.seq;
        self.place.journal_ends_at(last);
        let since = self.place.delivered();
        let again = self.held.take().is_some();
        if !again {
            tell(News::Hears(last.0.saturating_sub(since.0)));
        }
        self.presence(&Presence::HERE).await?;
        let mut shown = Shown::of(&client.snapshot);
        if since < last
            && let Err(error) = client.follow(Some(since)).await
        {
            return Ok(Unheard::Lost(error.to_string()));
        }
        // What comes now until the first one that was asked for is sent again behind it.
        let mut asked = since < last;
        let mut tick = tokio::time::interval(TICK);
        loop {
            let full = self.place.under_way() >= usize::from(UNDER_WAY);
            tokio::select! {
                heard = client.next(), if !full => {
                    let line = match heard {
                        Ok(Some(line)) => line,
                        Ok(None) => return Ok(Unheard::Lost("the daemon has stopped".to_owned())),
                        Err(error) => return Ok(Unheard::Lost(error.to_string())),
                    };
                    match line.line {
                        Some(SocketLine::Event(event)) if !(asked && event.seq > last) => {
                            asked = false;
                            self.event(&line.text, &event, &mut shown, event.seq > last, tell).await?;
                        }
                        Some(SocketLine::Word(Word::Bye { reason })) => return Ok(Unheard::Lost(reason)),
                        _ => {}
                    }
                }
                said = self.session.next() => match said? {
                    Answer::Taken(seq) => self.place.taken(seq),
                    Answer::Unread(_) if self.held.is_none() => {
                        self.held = Some(Instant::now());
                        self.place.broke();
                        if !again {
                            tell(News::Unread);
                        }
                    }
                    Answer::Unread(_) | Answer::Other => {}
                },
                _ = tick.tick() => {
                    if let Some(state) = shown.due(self.personal) {
                        self.session.retained(self.bay.state(), state).await?;
                    }
                    self.place.keep().map_err(|error| Ended::For(error.into()))?;
                    if self.held.is_some_and(|since| since.elapsed() >= OFFERED_AGAIN) {
                        return Ok(Unheard::Again);
                    }
                }
            }
        }
    }

    /// One event. `now`: it happened after the state was told, and is no old one.
    async fn event(
        &mut self,
        text: &str,
        event: &Event,
        shown: &mut Shown,
        now: bool,
        tell: &mut impl FnMut(News),
    ) -> Result<(), Ended> {
        if now {
            shown.take(event);
        }
        if event.body.durability() == Durability::Sample {
            if now && shown.wants(event.body.kind()) {
                let out = message::event(text, event, self.personal);
                self.session.sample(self.bay.samples(event.body.kind()), out.text.into_owned());
            }
            if self.held.is_none() {
                self.place.passed(event.seq);
            }
            return Ok(());
        }
        if self.held.is_some() {
            return Ok(());
        }
        let out = message::event(text, event, self.personal);
        let (text, cut) = if self.session.takes(out.text.len()) {
            (out.text.into_owned(), out.cut)
        } else {
            tell(News::TooLarge(event.seq));
            (message::stub(event), true)
        };
        self.place.sent(event.seq);
        self.session.fact(event.seq, text, cut).await
    }

    async fn presence(&mut self, presence: &Presence) -> Result<(), Ended> {
        self.session.retained(self.bay.presence(), presence.payload()).await
    }
}

/// What a board is shown, no oftener than it can look.
struct Shown {
    state: Box<Snapshot>,
    changed: bool,
    said: Instant,
    samples: HashMap<&'static str, Instant>,
}

impl Shown {
    fn of(snapshot: &Snapshot) -> Self {
        Self {
            state: Box::new(snapshot.clone()),
            changed: true,
            said: Instant::now(),
            samples: HashMap::new(),
        }
    }

    fn take(&mut self, event: &Event) {
        self.state.apply(event);
        self.changed = true;
    }

    /// The state, where it is another than was told; in a job also the same, so that a quiet bay is not taken for a lost one. A `go` is
    /// never said again without news: a daemon that hangs must not keep it alive.
    fn due(&mut self, personal: bool) -> Option<String> {
        let quiet = self.state.running().is_some() && self.state.verdict != Verdict::Go;
        let again = quiet && self.said.elapsed() >= SAID_AGAIN;
        if !(std::mem::take(&mut self.changed) || again) {
            return None;
        }
        self.said = Instant::now();
        Some(message::state(&self.state, personal))
    }

    /// Whether a sample of this kind goes out again by now.
    fn wants(&mut self, kind: &'static str) -> bool {
        let now = Instant::now();
        let due = self.samples.get(kind).is_none_or(|at| now.duration_since(*at) >= TICK);
        if due {
            self.samples.insert(kind, now);
        }
        due
    }
}

/// State and samples of one kind go out no oftener.
/// Own choice: a second is what a person across a workshop sees change.
const TICK: Duration = Duration::from_secs(1);
/// A state of a running job is said again after so long.
/// Own choice: half of what a board takes for old (`crates/view/src/bays.rs`).
const SAID_AGAIN: Duration = Duration::from_secs(5);
/// Facts that nobody wanted are offered again after so long.
/// Own choice: a store that is set up finds them within the time of a look at it.
const OFFERED_AGAIN: Duration = Duration::from_secs(10);

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use events::{JobView, People, Sheet};

    use super::*;

    #[tokio::test(start_paused = true)]
    async fn a_quiet_job_is_said_again_and_a_go_is_not() {
        let sheet = Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap();
        let mut state = Snapshot::default();
        let idle = state.clone();
        state.job = Some(JobView::new(1, &sheet, state.at, None, People::default()));
        let go = Snapshot { verdict: Verdict::Go, ..state.clone() };
        for (state, again) in [(state, true), (go, false), (idle, false)] {
            let mut shown = Shown::of(&state);
            assert!(shown.due(false).is_some() && shown.due(false).is_none(), "once, where nothing changes");
            tokio::time::advance(SAID_AGAIN).await;
            assert_eq!(shown.due(false).is_some(), again, "{:?}", state.verdict);
        }
    }
}

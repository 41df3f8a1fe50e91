//! `watch`: the live screen in a terminal, and the keys to tell.
//!
//! A front end of the socket like any other: what is shown is folded in `crates/view`, what is told is answered by the
//! daemon. When the daemon stops, the screen says so at once and finds it again by itself.

use std::time::{Duration, Instant};

use clap::Args;
use client::{Daemon, Link, News};
use events::{SocketLine, Told, Word};
use tokio::sync::mpsc;
use units::Mono;
use view::{Ask, Fold, Look, Offer, Seat, TypedRequest, View};
use words::args;

use crate::client::Where;
use crate::failure::{Exit, Failure};
use crate::screen::{Screen, say};
use crate::term::{self, Face, Form, Key, Terminal, Typed};

/// The screen is painted at least this often.
/// Own choice: ages and countdowns change each second; five looks in it are never a second late.
const TICK: Duration = Duration::from_millis(200);
/// Before the first picture a daemon is waited for so long.
/// Own choice: a daemon that listens greets in milliseconds; without one the screen must not stay dark.
const ANSWER: Duration = Duration::from_millis(500);
/// The second press of a key that is confirmed by pressing it twice comes within this.
/// Own choice: time to read the question; later it is a slip.
const TWICE: Duration = Duration::from_secs(3);

/// Arguments of `watch`.
#[derive(Debug, Args)]
#[command(
    after_help = "Keys: 1 to 4 tell what stands beside them (what cannot be taken back: twice), u takes back, m shows what\nelse can be told, i changes between the technician's and the helper's seat, q leaves. Without a terminal, or with --json:\none line of what would be shown whenever it changes.\n\nExamples:\n  standpipe watch\n  standpipe watch --seat inside --bay left"
)]
pub struct WatchArgs {
    #[command(flatten)]
    at: Where,
    /// Whose screen: the technician's under the vehicle, or the helper's inside.
    #[arg(long, default_value = "under", value_parser = seat, value_name = "SEAT")]
    seat: Seat,
    /// Print the sound patterns instead, one line each, for a buzzer or for speech (docs/sounds/).
    #[arg(long)]
    cues: bool,
}

fn seat(word: &str) -> Result<Seat, String> {
    match word {
        "under" => Ok(Seat::Under),
        "inside" => Ok(Seat::Inside),
        _ => Err("under or inside".to_owned()),
    }
}

/// `watch`.
pub fn run(args: &WatchArgs, screen: Screen) -> Result<(), Failure> {
    if args.cues {
        return view::Pattern::ALL.iter().try_for_each(|pattern| screen.json(pattern));
    }
    crate::runtime(None)?.block_on(async {
        if screen.is_json() {
            return lines(args, screen).await;
        }
        let keys = keyboard();
        let terminal = Terminal::take()?;
        Watch::new(args, screen, terminal).run(keys).await
    })
}

/// The keyboard has a thread of its own, which ends with the program.
pub fn keyboard() -> mpsc::Receiver<Key> {
    let (sender, keys) = mpsc::channel(64);
    std::thread::spawn(move || {
        while let Ok(key) = term::next_key() {
            if sender.blocking_send(key).is_err() {
                break;
            }
        }
    });
    keys
}

/// For programs: the view as JSON, one line whenever it changes in more than an age.
async fn lines(args: &WatchArgs, screen: Screen) -> Result<(), Failure> {
    let mut heard = Watched::new(args.at.daemon());
    let mut last: Option<View> = None;
    let mut trouble = None;
    loop {
        tokio::select! {
            () = heard.go_on(TICK) => {}
            _ = tokio::signal::ctrl_c() => return Err(Failure::new(Exit::Interrupted, "")),
        }
        if trouble != heard.trouble {
            trouble.clone_from(&heard.trouble);
            trouble.iter().for_each(|why| say(&format!("standpipe: {why}")));
        }
        let mut view = heard.look(args.seat, screen);
        view.link = view.link.split(',').next().unwrap_or_default().to_owned();
        let comparable = |v: &View| View { seq: 0, ..v.clone() };
        if last.as_ref().map(comparable) != Some(comparable(&view)) {
            screen.json(&view)?;
            last = Some(view);
        }
    }
}

/// The daemon, found again when it is lost, and the fold of what it said.
struct Watched {
    link: Link,
    started: Instant,
    fold: Fold,
    /// Why there is no daemon, where a person must do something about it.
    trouble: Option<String>,
    answer: Option<Word>,
}

impl Watched {
    fn new(daemon: Daemon) -> Self {
        let link = Link::new(daemon);
        Self { link, started: Instant::now(), fold: Fold::default(), trouble: None, answer: None }
    }

    fn now(&self) -> Mono {
        Mono::from_millis(u64::try_from(self.started.elapsed().as_millis()).unwrap_or(u64::MAX))
    }

    fn look(&self, seat: Seat, screen: Screen) -> View {
        self.fold.look(&Look { now: self.now(), seat, speech: screen.speech() })
    }

    /// The next news, or nothing within `wait`.
    async fn go_on(&mut self, wait: Duration) {
        let Ok(news) = tokio::time::timeout(wait, self.link.next()).await else { return };
        let now = self.now();
        match news {
            News::Connected(lines) => {
                self.trouble = None;
                lines.iter().for_each(|line| self.fold.hear(line, now));
            }
            News::Line(heard) => heard.line.into_iter().for_each(|line| self.hear(line, now)),
            News::Lost => self.fold.lost(now),
            News::Away(why) => self.trouble = Some(why.to_string()).filter(|_| why.needs_a_hand()),
        }
    }

    fn hear(&mut self, line: SocketLine, now: Mono) {
        self.fold.hear(&line, now);
        if let SocketLine::Word(word @ (Word::Accepted { .. } | Word::Refused { .. })) = line {
            self.answer = Some(word);
        }
        if self.fold.is_outdated() {
            self.link.renew();
        }
    }
}

/// A key that waits for its second press.
struct Armed {
    key: char,
    since: Instant,
}

struct Watch {
    heard: Watched,
    screen: Screen,
    terminal: Terminal,
    seat: Seat,
    /// Which page of the offers is shown.
    page: usize,
    form: Option<Form>,
    armed: Option<Armed>,
    message: String,
    told: u32,
}

impl Watch {
    fn new(args: &WatchArgs, screen: Screen, terminal: Terminal) -> Self {
        Self {
            heard: Watched::new(args.at.daemon()),
            screen,
            terminal,
            seat: args.seat,
            page: 0,
            form: None,
            armed: None,
            message: String::new(),
            told: 0,
        }
    }

    async fn run(mut self, mut keys: mpsc::Receiver<Key>) -> Result<(), Failure> {
        self.heard.go_on(ANSWER).await;
        loop {
            self.paint()?;
            tokio::select! {
                biased;
                key = keys.recv() => match key {
                    None | Some(Key::Stop) => return Ok(()),
                    Some(Key::Char('q')) if self.form.is_none() => return Ok(()),
                    Some(key) => self.key(key).await,
                },
                () = self.heard.go_on(TICK) => {}
            }
            if let Some(word) = self.heard.answer.take() {
                self.message = match word {
                    Word::Refused { reason, says, .. } => view::refused(reason, &says, self.screen.speech()),
                    _ => self.text("told"),
                };
            }
        }
    }

    fn text(&self, name: &'static str) -> String {
        self.screen.speech().text(name).to_owned()
    }

    fn paint(&mut self) -> Result<(), Failure> {
        let view = self.heard.look(self.seat, self.screen);
        let typed = self.form.as_ref().map(|form| form.line(self.screen.speech()));
        let message = typed.as_deref().or(self.heard.trouble.as_deref()).unwrap_or(&self.message);
        let face = Face { view: &view, speech: self.screen.speech(), message, deeds: None, page: self.page };
        self.terminal.draw(&face)
    }

    async fn key(&mut self, key: Key) {
        if let Some(mut form) = self.form.take() {
            match form.key(key) {
                Typed::On => self.form = Some(form),
                Typed::Left => self.message = self.text("let-be"),
                Typed::Said(said) => self.say(&said).await,
            }
            return;
        }
        match key {
            Key::Char('i') => {
                self.seat = if self.seat == Seat::Under { Seat::Inside } else { Seat::Under };
            }
            Key::Char('m') => {
                let pages = term::pages(&self.heard.look(self.seat, self.screen)).len().max(1);
                self.page = (self.page + 1) % pages;
            }
            Key::Char('u') => self.undo().await,
            Key::Char(c) => self.offer(c).await,
            _ => {}
        }
    }

    async fn undo(&mut self) {
        let view = self.heard.look(self.seat, self.screen);
        if view.undo.is_none() {
            self.message = self.text("term-nothing-to-take-back");
        } else {
            self.say(&TypedRequest::word("undo")).await;
        }
    }

    async fn offer(&mut self, c: char) {
        let view = self.heard.look(self.seat, self.screen);
        let place = c.to_digit(10).and_then(|n| n.checked_sub(1)).map(|n| n as usize);
        let offers = term::keyed(&view, self.page);
        let Some(offer) = place.and_then(|n| offers.get(n).copied()).cloned() else { return };
        if offer.hold && !self.pressed_twice(c) {
            let facts = args!(what = offer.label.as_str(), key = c.to_string());
            self.message = self.screen.speech().with("term-press-again", &facts);
            return;
        }
        self.take(offer).await;
    }

    fn pressed_twice(&mut self, key: char) -> bool {
        let before = self.armed.replace(Armed { key, since: Instant::now() });
        let twice = before.is_some_and(|a| a.key == key && a.since.elapsed() < TWICE);
        if twice {
            self.armed = None;
        }
        twice
    }

    async fn take(&mut self, offer: Offer) {
        if offer.ask == Ask::Nothing {
            self.say(&offer.said()).await;
        } else {
            self.form = Some(Form::new(offer));
        }
    }

    async fn say(&mut self, said: &TypedRequest) {
        self.armed = None;
        let request = match said.request() {
            Ok(request) => request,
            Err(why) => {
                self.message = why.to_string();
                return;
            }
        };
        self.told += 1;
        self.page = 0;
        let id = format!("watch-{}-{}-{}", std::process::id(), self.heard.fold.seq(), self.told);
        let told = Told { id, by: Some(self.seat.role()), request };
        let sent = self.heard.link.tell(&told).await;
        self.message = if sent { "…".to_owned() } else { self.text("not-told-no-contact") };
    }
}

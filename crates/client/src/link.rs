//! Connection after connection: the daemon is lost, and found again by itself.
//!
//! In: a [`Daemon`]. Out: [`News`], one after the other. A daemon that was restarted is found again at once, one that
//! turns us away is asked ever less often. Waiting for news may be given up at any moment, by a screen that must paint;
//! nothing is lost then.

use std::pin::Pin;
use std::time::Duration;

use events::{SocketLine, Told, Word};
use tokio::time::Instant;

use crate::client::{Client, Opening, ReadLine};
use crate::daemon::Daemon;
use crate::error::ClientError;
use crate::patience::Patience;

/// What listens and does not greet for so long is no daemon.
/// Own choice: a busy machine on a bench takes a second.
const GREETS_WITHIN: Duration = Duration::from_secs(5);

/// What happened on the link.
pub enum News {
    /// A connection stands: the daemon's first two lines.
    Connected(Box<[SocketLine; 2]>),
    /// A line.
    Line(Box<ReadLine>),
    /// The connection is gone.
    Lost,
    /// There is no connection, and why.
    Away(ClientError),
}

/// A connection that is being made.
type Connecting = Pin<Box<dyn Future<Output = Result<Opening, ClientError>> + Send>>;

enum Contact {
    Away,
    Connecting(Connecting),
    Opening(Opening),
    Open(Client),
}

/// The link to a daemon that may come and go.
pub struct Link {
    daemon: Daemon,
    state: Contact,
    patience: Patience,
    /// Since when it is opening or open.
    since: Instant,
    /// Before this it is not looked for again.
    next_try: Instant,
    greets_within: Duration,
}

impl Link {
    /// A link that is not connected yet.
    pub fn new(daemon: Daemon) -> Self {
        let now = Instant::now();
        Self {
            daemon,
            state: Contact::Away,
            patience: Patience::default(),
            since: now,
            next_try: now,
            greets_within: GREETS_WITHIN,
        }
    }

    /// The same, with another bound on how long a greeting may take.
    #[must_use]
    pub fn greeted_within(self, greets_within: Duration) -> Self {
        Self { greets_within, ..self }
    }

    /// The next news.
    pub async fn next(&mut self) -> News {
        loop {
            match &mut self.state {
                Contact::Away => {
                    tokio::time::sleep_until(self.next_try).await;
                    let daemon = self.daemon.clone();
                    self.state = Contact::Connecting(Box::pin(async move { Opening::begin(&daemon).await }));
                }
                Contact::Connecting(connecting) => match connecting.await {
                    Ok(opening) => {
                        self.since = Instant::now();
                        self.state = Contact::Opening(opening);
                    }
                    Err(why) => return self.away(why),
                },
                Contact::Opening(opening) => {
                    let greeted =
                        tokio::time::timeout_at(self.since + self.greets_within, opening.greet()).await;
                    match greeted.unwrap_or_else(|_| Err(ClientError::Silent { at: self.daemon.at() })) {
                        Ok(snapshot) => return self.connected(snapshot),
                        Err(why) => return self.away(why),
                    }
                }
                Contact::Open(client) => match client.next().await {
                    Ok(Some(heard)) => {
                        if matches!(heard.line, Some(SocketLine::Word(Word::Bye { .. }))) {
                            return self.lost(true);
                        }
                        return News::Line(Box::new(heard));
                    }
                    Ok(None) | Err(_) => return self.lost(false),
                },
            }
        }
    }

    /// Tells something; `false` where there is no connection, or it has just broken.
    pub async fn tell(&mut self, told: &Told) -> bool {
        match &mut self.state {
            Contact::Open(client) => client.tell(told).await.is_ok(),
            Contact::Away | Contact::Connecting(_) | Contact::Opening(_) => false,
        }
    }

    /// Whether a connection stands.
    pub const fn is_open(&self) -> bool {
        matches!(self.state, Contact::Open(_))
    }

    /// Gives the connection up for a new one, and with it a new snapshot.
    pub fn renew(&mut self) {
        let _ = self.lost(false);
    }

    fn connected(&mut self, snapshot: Box<events::Snapshot>) -> News {
        let Contact::Opening(opening) = std::mem::replace(&mut self.state, Contact::Away) else {
            return News::Lost;
        };
        match opening.open(snapshot) {
            Ok(client) => {
                let lines = [client.hello(), SocketLine::Word(Word::Snapshot(client.snapshot.clone()))];
                self.state = Contact::Open(client);
                News::Connected(Box::new(lines))
            }
            Err(why) => self.away(why),
        }
    }

    fn away(&mut self, why: ClientError) -> News {
        self.wait(Duration::ZERO, why.needs_a_hand());
        News::Away(why)
    }

    fn lost(&mut self, bye: bool) -> News {
        self.wait(self.since.elapsed(), bye);
        News::Lost
    }

    fn wait(&mut self, lasted: Duration, turned_away: bool) {
        self.state = Contact::Away;
        self.patience.ended(lasted, turned_away);
        self.next_try = Instant::now() + self.patience.pause();
    }
}

//! Hears the bays at a broker: their states, and whether they are there.
//!
//! In: a broker. Out: news of each bay, again after each loss. It publishes nothing. What cannot be read is let pass: one bay's nonsense
//! takes no other bay from the board. Not here: what a board shows (`view`), facts (a store's).

use std::sync::Arc;

use events::Snapshot;
use rumqttc::v5::mqttbytes::QoS;
use rumqttc::v5::mqttbytes::v5::{Packet, Publish};
use rumqttc::v5::{AsyncClient, Event, MqttOptions};
use tokio::time::sleep;
use tokio_rustls::rustls::ClientConfig;

use crate::broker::{Broker, Login};
use crate::error::RelayError;
use crate::message::{Bay, Presence};
use crate::session::{self, Ended};
use crate::waits::Waits;

/// Where to listen, and as whom.
#[derive(Debug, Clone)]
pub struct Listener {
    /// Which broker.
    pub broker: Broker,
    /// As whom; absent where the broker asks nobody.
    pub login: Option<Login>,
    /// How the broker is known; absent where nothing is secured.
    pub secured: Option<Arc<ClientConfig>>,
}

/// What is heard.
#[derive(Debug, Clone, PartialEq)]
pub enum BayNews {
    /// The broker answers; what is retained comes now.
    Connected,
    /// It cannot be reached, or was lost; it is tried again.
    BrokerLost(String),
    /// Whether a bay is there.
    Presence(Bay, Presence),
    /// A bay's state; `retained`: it lay there, and may be of any age.
    State {
        /// Whose.
        bay: Bay,
        /// Where it stands.
        state: Box<Snapshot>,
        /// It lay there before.
        retained: bool,
    },
}

/// Listens until the process ends it.
///
/// # Errors
/// Where somebody must change something before it can go on.
pub async fn listen(listener: Listener, mut tell: impl FnMut(BayNews)) -> RelayError {
    let mut waits = Waits::default();
    loop {
        let why = match hear(&listener, &mut waits, &mut tell).await {
            Ended::For(error) => return error,
            Ended::Broke(why) => why,
        };
        tell(BayNews::BrokerLost(why));
        sleep(waits.next()).await;
    }
}

/// One connection.
async fn hear(listener: &Listener, waits: &mut Waits, tell: &mut impl FnMut(BayNews)) -> Ended {
    let (client, mut events) = AsyncClient::new(options(listener), ASKED);
    loop {
        match events.poll().await {
            Ok(Event::Incoming(Packet::ConnAck(_))) => {
                waits.well();
                tell(BayNews::Connected);
                for topic in TOPICS {
                    if client.subscribe(topic, QoS::AtLeastOnce).await.is_err() {
                        return Ended::Broke("the connection is gone".to_owned());
                    }
                }
            }
            Ok(Event::Incoming(Packet::Publish(said))) => {
                if let Some(heard) = read(&said) {
                    tell(heard);
                }
            }
            Ok(_) => {}
            Err(error) => return session::refused(error, "this login"),
        }
    }
}

/// What a message says; nothing where it is none of a bay's.
fn read(said: &Publish) -> Option<BayNews> {
    let topic = core::str::from_utf8(&said.topic).ok()?;
    let mut parts = topic.split('/').skip(1);
    let (bay, what) = (parts.next()?.parse().ok()?, parts.next()?);
    let text = core::str::from_utf8(&said.payload).ok()?;
    match what {
        "presence" => serde_json::from_str(text).ok().map(|presence| BayNews::Presence(bay, presence)),
        // As every front end reads it: what could command a terminal is spelled out.
        "state" => {
            let state = events::read_snapshot(text).ok()?;
            Some(BayNews::State { bay, state: Box::new(state), retained: said.retain })
        }
        _ => None,
    }
}

fn options(listener: &Listener) -> MqttOptions {
    // Two boards of one name would push each other out.
    let name = format!(
        "standpipe-board-{}-{}",
        std::process::id(),
        std::time::UNIX_EPOCH.elapsed().map_or(0, |t| t.as_millis())
    );
    let mut options =
        session::reach(name, &listener.broker, listener.login.as_ref(), listener.secured.as_ref());
    options.set_max_packet_size(Some(LARGEST));
    options
}

/// What a board wants to know.
const TOPICS: [&str; 2] = ["standpipe/+/presence", "standpipe/+/state"];
/// Own choice: two subscriptions, and room.
const ASKED: usize = 16;
/// A larger message the broker keeps to itself (MQTT 5.0, 3.1.2.11.4).
/// Own choice: a state has some 3 kB; nobody's nonsense takes more memory than that of twenty.
const LARGEST: u32 = 65_536;

#[cfg(test)]
mod tests {
    use super::*;

    fn said(topic: &str, payload: &str, retain: bool) -> Option<BayNews> {
        let mut publish = Publish::new(topic, QoS::AtLeastOnce, payload.as_bytes().to_vec(), None);
        publish.retain = retain;
        read(&publish)
    }

    #[test]
    fn a_bays_words_are_read_and_nonsense_is_let_pass() {
        let Some(BayNews::Presence(bay, presence)) =
            said("standpipe/left/presence", r#"{"present":false,"why":"relay-lost"}"#, true)
        else {
            panic!("no presence")
        };
        assert_eq!((bay.to_string().as_str(), presence.present), ("left", false));
        let state = serde_json::to_string(&Snapshot::default()).unwrap_or_default();
        assert!(matches!(
            said("standpipe/left/state", &state, true),
            Some(BayNews::State { retained: true, .. })
        ));
        for (topic, payload) in [
            ("standpipe/left/state", "{"),
            ("standpipe/left/state", "{}"),
            ("standpipe/left/other", "{}"),
            ("standpipe/le ft/state", &state),
            ("standpipe", &state),
            ("standpipe/left/presence", "1"),
        ] {
            assert_eq!(said(topic, payload, false), None, "{topic} {payload}");
        }
    }
}

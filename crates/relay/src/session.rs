//! One connection to the broker, from its acceptance to its end.
//!
//! In: messages. Out: which facts the broker has, and the end with its reason. A connection is never taken up again: the next one is new,
//! and whoever uses it knows what was not taken. So no packet of an old connection is sent behind its back.
//! Not here: what is said (`message.rs`), when (`flow.rs`).

use std::collections::{HashMap, VecDeque};
use std::sync::Arc;
use std::time::Duration;

use events::Seq;
use rumqttc::v5::mqttbytes::QoS;
use rumqttc::v5::mqttbytes::v5::{
    ConnAckProperties, ConnectReturnCode, LastWill, Packet, PubAckReason, PublishProperties,
};
use rumqttc::v5::{AsyncClient, ConnectionError, Event, EventLoop, MqttOptions, StateError};
use rumqttc::{Outgoing, TlsConfiguration, Transport};
use tokio::sync::mpsc;
use tokio::task::JoinHandle;
use tokio_rustls::rustls::ClientConfig;

use crate::broker::{Broker, Login};
use crate::error::RelayError;
use crate::message::{Bay, Presence};

/// What a connection is made with.
#[derive(Debug, Clone)]
pub(crate) struct Needs {
    pub(crate) broker: Broker,
    pub(crate) login: Option<Login>,
    pub(crate) secured: Option<Arc<ClientConfig>>,
    pub(crate) bay: Bay,
}

/// How a connection ends.
#[derive(Debug)]
pub(crate) enum Ended {
    /// It may be tried again.
    Broke(String),
    /// It may not: somebody must change something.
    For(RelayError),
}

/// What the broker says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Answer {
    /// It has this fact, and somebody there gets it.
    Taken(Seq),
    /// It took this fact and threw it away: nobody there wants facts, nor has asked for them to be kept.
    Unread(Seq),
    /// Nothing that matters here.
    Other,
}

/// See the module's words.
pub(crate) struct Session {
    client: AsyncClient,
    heard: mpsc::Receiver<Result<Event, ConnectionError>>,
    turning: JoinHandle<()>,
    topic: String,
    /// What was handed over and is asked to be acknowledged, in order; none for what is no fact.
    handed: VecDeque<Option<Seq>>,
    /// What is on its way, by the packet's number.
    under_way: HashMap<u16, Option<Seq>>,
    largest: usize,
}

impl Session {
    /// Connects.
    pub(crate) async fn open(needs: &Needs) -> Result<Self, Ended> {
        let (client, events) = AsyncClient::new(options(needs), HANDED);
        let (tell, mut heard) = mpsc::channel(HANDED);
        let turning = tokio::spawn(turn(events, tell));
        let broke = |why: String| Ended::Broke(why);
        let accepted = loop {
            match heard.recv().await {
                Some(Ok(Event::Incoming(Packet::ConnAck(accepted)))) => break accepted,
                Some(Ok(_)) => {}
                Some(Err(error)) => {
                    turning.abort();
                    return Err(refused(error, &needs.bay.to_string()));
                }
                None => return Err(broke("it says nothing".to_owned())),
            }
        };
        let limits = accepted.properties.as_ref();
        if let Some(what) = unable(limits) {
            turning.abort();
            return Err(Ended::For(RelayError::Unable { what }));
        }
        let largest = limits.and_then(|limits| limits.max_packet_size).unwrap_or(u32::MAX);
        let largest = usize::try_from(largest).unwrap_or(usize::MAX).saturating_sub(FRAME);
        let topic = needs.bay.facts();
        Ok(Self {
            client,
            heard,
            turning,
            topic,
            handed: VecDeque::new(),
            under_way: HashMap::new(),
            largest,
        })
    }

    /// Whether the broker takes a message of this length.
    pub(crate) const fn takes(&self, length: usize) -> bool {
        length <= self.largest
    }

    /// A fact. `cut`: something of it stays in the bay.
    pub(crate) async fn fact(&mut self, seq: Seq, text: String, cut: bool) -> Result<(), Ended> {
        self.handed.push_back(Some(seq));
        let properties = PublishProperties {
            user_properties: if cut { vec![("cut".to_owned(), "true".to_owned())] } else { Vec::new() },
            ..PublishProperties::default()
        };
        let topic = self.topic.clone();
        let sent = self.client.publish_with_properties(topic, QoS::AtLeastOnce, false, text, properties);
        sent.await.map_err(|_| Ended::Broke("the connection is gone".to_owned()))
    }

    /// Something retained: state, presence.
    pub(crate) async fn retained(&mut self, topic: String, text: String) -> Result<(), Ended> {
        self.handed.push_back(None);
        let sent = self.client.publish(topic, QoS::AtLeastOnce, true, text);
        sent.await.map_err(|_| Ended::Broke("the connection is gone".to_owned()))
    }

    /// A sample: may be lost. Where the queue is full it is.
    pub(crate) fn sample(&self, topic: String, text: String) {
        let _ = self.client.try_publish(topic, QoS::AtMostOnce, false, text);
    }

    /// The next thing that the broker says. May be given up while it waits.
    pub(crate) async fn next(&mut self) -> Result<Answer, Ended> {
        let Some(heard) = self.heard.recv().await else {
            return Err(Ended::Broke("the connection is gone".to_owned()));
        };
        match heard.map_err(|error| Ended::Broke(error.to_string()))? {
            // Without a number it is a sample.
            Event::Outgoing(Outgoing::Publish(number)) if number != 0 => {
                let what = self.handed.pop_front().flatten();
                self.under_way.insert(number, what);
                Ok(Answer::Other)
            }
            // Two packets of one number: the broker does not take them in order. A new connection is clean.
            Event::Outgoing(Outgoing::AwaitAck(_)) => {
                Err(Ended::Broke("it acknowledges out of order".to_owned()))
            }
            Event::Incoming(Packet::PubAck(taken)) => match taken.reason {
                PubAckReason::Success => {
                    Ok(self.acknowledged(taken.pkid).map_or(Answer::Other, Answer::Taken))
                }
                PubAckReason::NoMatchingSubscribers => {
                    Ok(self.acknowledged(taken.pkid).map_or(Answer::Other, Answer::Unread))
                }
                PubAckReason::QuotaExceeded => Err(Ended::Broke("its quota is used up".to_owned())),
                why => {
                    let (topic, why) = (self.topic.clone(), format!("{why:?}"));
                    Err(Ended::For(RelayError::NotAllowed { topic, why }))
                }
            },
            _ => Ok(Answer::Other),
        }
    }

    /// Which fact had this number; none where it was state or presence.
    fn acknowledged(&mut self, number: u16) -> Option<Seq> {
        self.under_way.remove(&number).flatten()
    }

    /// Says goodbye and waits for what is under way, for a moment.
    pub(crate) async fn close(mut self, presence: (String, Presence)) {
        let (topic, presence) = presence;
        let leave = async {
            self.retained(topic, presence.payload()).await.ok()?;
            while !(self.handed.is_empty() && self.under_way.is_empty()) {
                self.next().await.ok()?;
            }
            self.client.disconnect().await.ok()?;
            while self.next().await.is_ok() {}
            Some(())
        };
        let _ = tokio::time::timeout(LEAVES_WITHIN, leave).await;
    }
}

impl Drop for Session {
    fn drop(&mut self) {
        self.turning.abort();
    }
}

/// Turns the connection until it breaks. It must not be given up in the middle, so it has a task of its own.
async fn turn(mut events: EventLoop, tell: mpsc::Sender<Result<Event, ConnectionError>>) {
    loop {
        let said = events.poll().await;
        let ends = said.is_err();
        if tell.send(said).await.is_err() || ends {
            return;
        }
    }
}

fn options(needs: &Needs) -> MqttOptions {
    let name = format!("standpipe-{}", needs.bay);
    let mut options = reach(name, &needs.broker, needs.login.as_ref(), needs.secured.as_ref());
    options.set_outgoing_inflight_upper_limit(UNDER_WAY);
    let will = Presence::lost("relay-lost").payload();
    options.set_last_will(LastWill::new(needs.bay.presence(), will, QoS::AtLeastOnce, true, None));
    options
}

/// How a broker is reached, under a name of one's own; nothing of an earlier connection is taken up.
pub(crate) fn reach(
    name: String,
    broker: &Broker,
    login: Option<&Login>,
    secured: Option<&Arc<ClientConfig>>,
) -> MqttOptions {
    let mut options = MqttOptions::new(name, broker.host(), broker.port());
    options.set_keep_alive(KEEP_ALIVE).set_clean_start(true).set_connection_timeout(CONNECTS_WITHIN_S);
    if let Some(login) = login {
        options.set_credentials(login.name(), login.password());
    }
    if let Some(secured) = secured {
        options.set_transport(Transport::tls_with_config(TlsConfiguration::Rustls(Arc::clone(secured))));
    }
    options
}

/// Whether it may be tried again.
pub(crate) fn refused(error: ConnectionError, whom: &str) -> Ended {
    use ConnectReturnCode as C;
    let code = match &error {
        ConnectionError::ConnectionRefused(code) => *code,
        ConnectionError::MqttState(StateError::ConnFail { reason }) => *reason,
        _ => return Ended::Broke(error.to_string()),
    };
    match code {
        C::ServerUnavailable
        | C::ServiceUnavailable
        | C::ServerBusy
        | C::QuotaExceeded
        | C::ConnectionRateExceeded => Ended::Broke(format!("{code:?}")),
        _ => Ended::For(RelayError::Refused { bay: whom.to_owned(), why: format!("{code:?}") }),
    }
}

/// What is needed and the broker does not have (MQTT 5.0, 3.2.2.3: what is absent it has).
fn unable(limits: Option<&ConnAckProperties>) -> Option<&'static str> {
    let limits = limits?;
    if limits.max_qos == Some(0) {
        return Some("acknowledge what it takes");
    }
    (limits.retain_available == Some(0)).then_some("retain a message")
}

/// So many messages may be handed over before the connection has sent them.
/// Own choice: those under way, and samples beside them.
const HANDED: usize = 128;
/// So many facts may be under way.
/// Own choice: at 50 ms there and back some 600 a second; a broker that wants fewer says so, and that counts.
pub(crate) const UNDER_WAY: u16 = 32;
/// What a packet has besides its payload: its head, topic and properties.
/// Own choice: a topic of at most 90 bytes, one property of 11 and the head, with room.
const FRAME: usize = 512;
/// The broker tells of a lost relay after one and a half of it (MQTT 5.0, 3.1.2.10).
/// Own choice: a board must not show a bay for longer that is not there.
const KEEP_ALIVE: Duration = Duration::from_secs(20);
/// Own choice: a broker across a slow line answers in a few seconds.
const CONNECTS_WITHIN_S: u64 = 10;
/// Own choice: who ends the relay waits for it.
const LEAVES_WITHIN: Duration = Duration::from_secs(3);

//! The doors: how many come in at a time, how long they may take, who goes when it is full.
//!
//! In: connections. Out: requests to the router. When all places are taken, one that has shown nothing yet makes room
//! for the next one: ten thousand that only stand there shut nobody out. Not here: what a request may, and who goes
//! first (`places.rs`).

use std::collections::HashMap;
use std::net::SocketAddr;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use axum::Router;
use axum::body::Body;
use hyper::body::Incoming;
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::net::{TcpListener, TcpStream};
use tokio::task::AbortHandle;
use tower::ServiceExt as _;

use crate::guard::Bearer;
use crate::limits::Limits;
use crate::places::Places;

/// After a connection could not be accepted, none is for so long.
/// Own choice: descriptors are short for as long as somebody holds them; at once it would spin, longer a page would be
/// felt to hang.
const ACCEPT_PAUSE: Duration = Duration::from_millis(100);

/// Where a request comes from, and the connection that it came on.
#[derive(Clone)]
pub(crate) struct Caller {
    pub(crate) from: SocketAddr,
    number: u64,
    inside: Arc<Mutex<Inside>>,
}

impl Caller {
    /// It has shown whose it is: it keeps its place before those that did not.
    pub(crate) fn proven(&self, bearer: Bearer) {
        let mut inside = lock(&self.inside);
        if let Some(goes) = inside.places.proven(self.number, bearer) {
            inside.end(goes);
        }
    }

    /// Ends the connection, whatever is under way on it.
    pub(crate) fn end(&self) {
        lock(&self.inside).end(self.number);
    }
}

/// All connections.
struct Inside {
    places: Places,
    tasks: HashMap<u64, AbortHandle>,
}

impl Inside {
    fn end(&mut self, number: u64) {
        self.places.leave(number);
        if let Some(task) = self.tasks.remove(&number) {
            task.abort();
        }
    }
}

/// A connection's place, given back when it is dropped.
struct Held(Caller);

impl Drop for Held {
    fn drop(&mut self) {
        self.0.end();
    }
}

/// Serves for ever.
pub(crate) async fn serve(listener: TcpListener, router: Router, limits: Limits) {
    let places = Places::new(limits.connections, limits.per_pairing);
    let inside = Arc::new(Mutex::new(Inside { places, tasks: HashMap::new() }));
    loop {
        match listener.accept().await {
            Ok((stream, from)) => welcome(stream, from, &inside, &router, limits),
            Err(e) => {
                tracing::debug!(error = %e, "page: connection not accepted");
                tokio::time::sleep(ACCEPT_PAUSE).await;
            }
        }
        // One a turn: whoever comes and goes as fast as he can waits for those who are in.
        tokio::task::yield_now().await;
    }
}

fn welcome(
    stream: TcpStream,
    from: SocketAddr,
    inside: &Arc<Mutex<Inside>>,
    router: &Router,
    limits: Limits,
) {
    let _ = stream.set_nodelay(true);
    let mut held = lock(inside);
    let (number, goes) = held.places.enter(from.ip());
    goes.into_iter().for_each(|goes| held.end(goes));
    let caller = Caller { from, number, inside: Arc::clone(inside) };
    let task = tokio::spawn(one(stream, router.clone(), caller, limits)).abort_handle();
    held.tasks.insert(number, task);
}

async fn one(stream: TcpStream, router: Router, caller: Caller, limits: Limits) {
    let held = Held(caller.clone());
    let service = hyper::service::service_fn(move |request: hyper::Request<Incoming>| {
        let mut request = request.map(Body::new);
        request.extensions_mut().insert(caller.clone());
        router.clone().oneshot(request)
    });
    let done = hyper::server::conn::http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(limits.head_within)
        .max_buf_size(limits.head_bytes)
        .keep_alive(true)
        .serve_connection(TokioIo::new(stream), service)
        .await;
    if let Err(e) = done {
        tracing::trace!(error = %e, "page: connection ended");
    }
    drop(held);
}

fn lock(inside: &Mutex<Inside>) -> MutexGuard<'_, Inside> {
    // Places and handles are whole whatever happened to the one that held the lock.
    inside.lock().unwrap_or_else(PoisonError::into_inner)
}

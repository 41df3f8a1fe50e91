//! The doors: how many come in at a time, how long they may take, who goes when it is full.
//!
//! In: connections. Out: requests to the router. A connection that has shown nothing yet makes room for the next one when all
//! places are taken, the oldest first: ten thousand that only stand there shut nobody out. Not here: what a request may.

use std::net::SocketAddr;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use axum::Router;
use axum::body::Body;
use hyper::body::Incoming;
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::net::{TcpListener, TcpStream};
use tokio::task::AbortHandle;
use tower::ServiceExt as _;

use crate::serve::Limits;

/// After a connection could not be accepted, none is for so long.
const ACCEPT_PAUSE: Duration = Duration::from_millis(100);

/// Where a request comes from, and whether its connection has proven itself.
#[derive(Debug, Clone)]
pub(crate) struct Caller {
    pub(crate) from: SocketAddr,
    proven: Arc<AtomicBool>,
}

impl Caller {
    /// It has asked something that it may ask: it keeps its place.
    pub(crate) fn proven(&self) {
        self.proven.store(true, Ordering::Relaxed);
    }
}

struct Place {
    proven: Arc<AtomicBool>,
    task: AbortHandle,
}

/// Serves for ever.
pub(crate) async fn serve(listener: TcpListener, router: Router, limits: Limits) {
    let places: Arc<Mutex<Vec<Place>>> = Arc::default();
    loop {
        let (stream, from) = match listener.accept().await {
            Ok(accepted) => accepted,
            Err(e) => {
                tracing::debug!(error = %e, "page: connection not accepted");
                tokio::time::sleep(ACCEPT_PAUSE).await;
                continue;
            }
        };
        if !make_room(&places, limits.connections) {
            continue;
        }
        let _ = stream.set_nodelay(true);
        let proven = Arc::new(AtomicBool::new(false));
        let caller = Caller { from, proven: Arc::clone(&proven) };
        let task = tokio::spawn(one(stream, router.clone(), caller, limits)).abort_handle();
        places.lock().unwrap_or_else(PoisonError::into_inner).push(Place { proven, task });
    }
}

/// Whether there is a place, where need be that of the oldest that has proven nothing.
fn make_room(places: &Mutex<Vec<Place>>, most: usize) -> bool {
    let mut places = places.lock().unwrap_or_else(PoisonError::into_inner);
    if places.len() < most {
        return true;
    }
    places.retain(|p| !p.task.is_finished());
    if places.len() < most {
        return true;
    }
    let Some(oldest) = places.iter().position(|p| !p.proven.load(Ordering::Relaxed)) else { return false };
    places.remove(oldest).task.abort();
    true
}

async fn one(stream: TcpStream, router: Router, caller: Caller, limits: Limits) {
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
}

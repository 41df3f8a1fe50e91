//! What can be asked for, and how it is answered.
//!
//! In: requests that passed the doors. Out: the page, frames, answers. Every route names what its caller needs; every
//! answer carries the same strict headers. There is no file served by name, so there is no path to climb.

use std::convert::Infallible;
use std::sync::Arc;

use axum::Router;
use axum::body::{Body, Bytes, to_bytes};
use axum::extract::{Extension, Path, Query, Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, StatusCode, header};
use axum::middleware::{self, Next};
use axum::response::{IntoResponse as _, Response};
use axum::routing::{get, post};
use events::{Told, Word};
use serde::{Deserialize, Serialize};
use tokio::sync::oneshot;
use tokio_stream::StreamExt as _;
use tokio_stream::wrappers::WatchStream;
use units::text::UnitSystem;
use view::{Pattern, Seat, TypedRequest};
use words::{Lang, Speech};

use crate::access::{Admission, May};
use crate::doors::Caller;
use crate::feed::{Asked, Feed};
use crate::guard::{Guard, Refused, cookie};
use crate::limits::Limits;
use crate::own;
use crate::queue::{Queue, Ticket};
use crate::shelf::{SheetAsk, Shelf};

const PAGE: &str = include_str!("assets/page.html");
const STYLE: &str = include_str!("assets/page.css");
const SCRIPT: &str = include_str!("assets/page.js");
const SOUND: &str = include_str!("assets/sound.js");
const SHEET: &str = include_str!("assets/sheet.js");

/// Only what we send ourselves; nothing inline, nothing framed, nothing from elsewhere.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self' data:; \
                      base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
/// A report brings its own style and no script.
const REPORT_POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox allow-popups";

/// Everything that answering needs.
#[derive(Clone)]
pub(crate) struct Desk {
    pub(crate) guard: Guard,
    pub(crate) feed: Feed,
    pub(crate) shelf: Arc<dyn Shelf>,
    pub(crate) queue: Queue,
    pub(crate) units: UnitSystem,
    pub(crate) lang: Option<Lang>,
    pub(crate) limits: Limits,
}

/// All routes, behind the checks that every request passes.
pub(crate) fn router(desk: Desk) -> Router {
    Router::new()
        .route("/", get(|| async { text("text/html; charset=utf-8", PAGE) }))
        .route("/inside", get(|| async { text("text/html; charset=utf-8", PAGE) }))
        .route("/page.css", get(|| async { text("text/css; charset=utf-8", STYLE) }))
        .route("/page.js", get(|| async { text("text/javascript; charset=utf-8", SCRIPT) }))
        .route("/sound.js", get(|| async { text("text/javascript; charset=utf-8", SOUND) }))
        .route("/sheet.js", get(|| async { text("text/javascript; charset=utf-8", SHEET) }))
        .route("/cues", get(|| async { json(StatusCode::OK, &Pattern::ALL) }))
        .route("/who", get(who))
        .route("/words.js", get(words))
        .route("/pair", post(pair))
        .route("/live", get(live))
        .route("/tell", post(tell))
        .route("/jobs", get(jobs))
        .route("/job/{number}", get(report))
        .route("/plan", get(plan))
        .route("/sheets", get(sheets))
        .route("/sheet", post(sheet))
        .fallback(|| async { refusal(StatusCode::NOT_FOUND, "There is nothing here.") })
        .layer(middleware::from_fn_with_state(desk.clone(), checked))
        .with_state(desk)
}

/// Host and origin before anything else, then whose it is, then its whole body, in bounded time; the same headers after
/// everything.
async fn checked(State(desk): State<Desk>, request: Request, next: Next) -> Response {
    let (parts, body) = request.into_parts();
    let mut response = match desk.guard.place(&parts) {
        Ok(()) => {
            let caller = parts.extensions.get::<Caller>();
            if let (Some(caller), Some(bearer)) = (caller, desk.guard.who(&parts.headers)) {
                caller.proven(bearer);
            }
            // A shared sheet is longer than anything else that is told.
            let is_sheet =
                parts.uri.path() == "/sheet" && desk.guard.admit(&parts.headers, May::Tell).is_ok();
            let most = if is_sheet { desk.limits.sheet_bytes } else { desk.limits.body_bytes };
            let whole = to_bytes(body, most);
            match tokio::time::timeout(desk.limits.body_within, whole).await {
                Ok(Ok(bytes)) => next.run(Request::from_parts(parts, Body::from(bytes))).await,
                Ok(Err(_)) => last(refusal(StatusCode::PAYLOAD_TOO_LARGE, "That is too much.")),
                Err(_) => {
                    last(refusal(StatusCode::REQUEST_TIMEOUT, "The rest of that did not come in time."))
                }
            }
        }
        Err(refused) => refuse(refused),
    };
    let headers = response.headers_mut();
    let fixed: [(HeaderName, &'static str); 7] = [
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::REFERRER_POLICY, "no-referrer"),
        (header::X_FRAME_OPTIONS, "DENY"),
        (header::CACHE_CONTROL, "no-store"),
        (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
        (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
        (HeaderName::from_static("permissions-policy"), "camera=(), microphone=(), geolocation=()"),
    ];
    for (name, value) in fixed {
        headers.insert(name, HeaderValue::from_static(value));
    }
    headers.entry(header::CONTENT_SECURITY_POLICY).or_insert(HeaderValue::from_static(POLICY));
    response
}

/// The page's own words in the language of the browser; no secret, so the door that asks for a code has them too.
async fn words(State(desk): State<Desk>, headers: HeaderMap) -> Response {
    let lang = desk.language(&headers);
    let words = serde_json::to_string(&own::of(lang)).unwrap_or_else(|_| "{}".to_owned());
    let script = format!("'use strict';\nconst LANG = '{lang}', WORDS = {words};\n");
    ([(header::CONTENT_TYPE, "text/javascript; charset=utf-8")], script).into_response()
}

#[derive(Serialize)]
struct Who {
    may: May,
    units: &'static str,
}

async fn who(State(desk): State<Desk>, headers: HeaderMap) -> Response {
    match desk.guard.admit(&headers, May::See) {
        Ok(may) => json(StatusCode::OK, &Who { may, units: desk.units.word() }),
        Err(refused) => refuse(refused),
    }
}

/// What a browser brings to be let in: a code from the terminal, or the token of a link that shows.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Bring {
    #[serde(default)]
    code: Option<String>,
    #[serde(default)]
    link: Option<String>,
}

async fn pair(
    State(desk): State<Desk>,
    Extension(caller): Extension<Caller>,
    headers: HeaderMap,
    body: Bytes,
) -> Response {
    let Ok(bring) = serde_json::from_slice::<Bring>(&body) else {
        return refusal(StatusCode::BAD_REQUEST, "Say the code as JSON.");
    };
    let name =
        headers.get(header::USER_AGENT).and_then(|v| v.to_str().ok()).unwrap_or("a browser").to_owned();
    let pairings = Arc::clone(&desk.guard.pairings);
    let from = desk.guard.guesser(&headers, caller.from.ip());
    let admitted = blocking(move || match bring {
        Bring { link: Some(link), .. } => Ok(match pairings.may(&link) {
            Some(_) => Admission::Token(link),
            None => Admission::Wrong,
        }),
        Bring { code: Some(code), .. } => pairings.redeem(&code, &name, from).map_err(|e| e.to_string()),
        Bring { .. } => Ok(Admission::Wrong),
    });
    match admitted.await {
        Ok(Admission::Token(token)) => {
            let name = cookie(desk.guard.port);
            let secure = if desk.guard.is_secure(&headers, caller.from.ip()) { "; Secure" } else { "" };
            let value =
                format!("{name}={token}; Path=/; HttpOnly; SameSite=Strict; Max-Age=31536000{secure}");
            let mut response = json(StatusCode::OK, &());
            if let Ok(value) = HeaderValue::from_str(&value) {
                response.headers_mut().insert(header::SET_COOKIE, value);
            }
            response
        }
        Ok(Admission::Wrong) => {
            refusal(StatusCode::FORBIDDEN, "That is no valid code. `standpipe page pair` shows a new one.")
        }
        Ok(Admission::ShutOut) => {
            refusal(StatusCode::TOO_MANY_REQUESTS, "Too many wrong codes. Wait ten minutes.")
        }
        Err(why) => refusal(StatusCode::INTERNAL_SERVER_ERROR, &why),
    }
}

#[derive(Deserialize)]
struct From {
    #[serde(default)]
    seat: Seat,
}

/// The frames of a seat, the newest first, until the pairing is revoked.
async fn live(State(desk): State<Desk>, Query(from): Query<From>, headers: HeaderMap) -> Response {
    if let Err(refused) = desk.guard.admit(&headers, May::See) {
        return refuse(refused);
    }
    let guard = desk.guard.clone();
    let lang = desk.language(&headers);
    let admitted = move || guard.who(&headers).is_some();
    let Some(frames) = desk.feed.of(lang, from.seat) else {
        return refusal(StatusCode::NOT_FOUND, "There is nothing here.");
    };
    // What nobody looked at was not painted: the last of it may be old.
    let frames = if lang == Lang::En { WatchStream::new(frames) } else { WatchStream::from_changes(frames) };
    let frames = frames.take_while(move |_| admitted());
    let start = tokio_stream::once(Bytes::from_static(b"retry: 500\n\n"));
    let bytes = start.chain(frames.map(|frame| Bytes::copy_from_slice(frame.as_bytes())));
    let stream = bytes.map(Ok::<_, Infallible>);
    ([(header::CONTENT_TYPE, "text/event-stream")], Body::from_stream(stream)).into_response()
}

/// What a page tells: the fields as text, an id of its own making, its seat.
#[derive(Deserialize)]
struct Telling {
    id: String,
    #[serde(default)]
    seat: Seat,
    said: TypedRequest,
}

#[derive(Serialize)]
struct Answer<'a> {
    ok: bool,
    says: &'a str,
}

async fn tell(State(desk): State<Desk>, headers: HeaderMap, body: Bytes) -> Response {
    if let Err(refused) = desk.guard.admit(&headers, May::Tell) {
        return refuse(refused);
    }
    let telling = match serde_json::from_slice::<Telling>(&body) {
        Ok(telling) if (1..=50).contains(&telling.id.chars().count()) => telling,
        Ok(_) => return refusal(StatusCode::BAD_REQUEST, "The id must have 1 to 50 characters."),
        Err(e) => return refusal(StatusCode::BAD_REQUEST, &format!("Not understood: {e}.")),
    };
    let request = match telling.said.request() {
        Ok(request) => request,
        Err(why) => return refusal(StatusCode::UNPROCESSABLE_ENTITY, &why.to_string()),
    };
    let speech = Speech { lang: desk.language(&headers), units: desk.units };
    let told = Told { id: format!("page-{}", telling.id), by: Some(telling.seat.role()), request };
    let (answer, answered) = oneshot::channel();
    if desk.feed.asks.send(Asked { told, answer }).await.is_err() {
        return refusal(StatusCode::SERVICE_UNAVAILABLE, NO_DAEMON);
    }
    match tokio::time::timeout(desk.limits.answer_within, answered).await {
        Ok(Ok(Word::Accepted { .. })) => {
            json(StatusCode::OK, &Answer { ok: true, says: speech.text("told") })
        }
        Ok(Ok(Word::Refused { reason, says, .. })) => {
            refusal(StatusCode::UNPROCESSABLE_ENTITY, &view::refused(reason, &says, speech))
        }
        _ => refusal(StatusCode::SERVICE_UNAVAILABLE, NO_DAEMON),
    }
}

const NO_DAEMON: &str =
    "The daemon does not answer. Look whether it was taken down before you tell it again.";

async fn jobs(State(desk): State<Desk>, headers: HeaderMap) -> Response {
    let lang = desk.language(&headers);
    match desk.read(&headers, move |shelf| shelf.jobs(lang)).await {
        Ok((_, Ok(jobs))) => json(StatusCode::OK, &jobs),
        Ok((_, Err(why))) => refusal(StatusCode::SERVICE_UNAVAILABLE, &why),
        Err(refused) => refused,
    }
}

async fn report(
    State(desk): State<Desk>,
    Extension(caller): Extension<Caller>,
    Path(number): Path<u64>,
    headers: HeaderMap,
) -> Response {
    let lang = desk.language(&headers);
    match desk.read(&headers, move |shelf| shelf.report(number, lang)).await {
        Ok((ticket, Ok(page))) => {
            let body = held(Bytes::from(page), ticket, caller, desk.limits);
            let kind = (header::CONTENT_TYPE, "text/html; charset=utf-8");
            ([kind, (header::CONTENT_SECURITY_POLICY, REPORT_POLICY)], body).into_response()
        }
        Ok((_, Err(why))) => refusal(StatusCode::NOT_FOUND, &why),
        Err(refused) => refused,
    }
}

async fn plan(State(desk): State<Desk>, headers: HeaderMap) -> Response {
    let (sheet, lang) = (desk.feed.sheet.borrow().clone(), desk.language(&headers));
    let plan = desk.read(&headers, move |shelf| sheet.map(|sheet| shelf.plan(&sheet, lang)));
    match plan.await {
        Ok((_, Some(Ok(plan)))) => {
            ([(header::CONTENT_TYPE, "text/plain; charset=utf-8")], plan).into_response()
        }
        Ok((_, Some(Err(why)))) => refusal(StatusCode::UNPROCESSABLE_ENTITY, &why),
        Ok((_, None)) => refusal(StatusCode::SERVICE_UNAVAILABLE, NO_DAEMON),
        Err(refused) => refused,
    }
}

async fn sheets(State(desk): State<Desk>, headers: HeaderMap) -> Response {
    match desk.read(&headers, |shelf| shelf.sheets()).await {
        Ok((_, Ok(sheets))) => json(StatusCode::OK, &sheets),
        Ok((_, Err(why))) => refusal(StatusCode::SERVICE_UNAVAILABLE, &why),
        Err(refused) => refused,
    }
}

/// A sheet is made and corrected by those who may tell.
async fn sheet(State(desk): State<Desk>, headers: HeaderMap, body: Bytes) -> Response {
    if let Err(refused) = desk.guard.admit(&headers, May::Tell) {
        return refuse(refused);
    }
    let ask = match serde_json::from_slice::<SheetAsk>(&body) {
        Ok(ask) => ask,
        Err(e) => return refusal(StatusCode::BAD_REQUEST, &format!("Not understood: {e}.")),
    };
    match desk.read(&headers, move |shelf| shelf.sheet(&ask)).await {
        Ok((_, Ok(now))) => ([(header::CONTENT_TYPE, "application/json")], now).into_response(),
        Ok((_, Err(why))) => refusal(StatusCode::UNPROCESSABLE_ENTITY, &why),
        Err(refused) => refused,
    }
}

impl Desk {
    /// In which language a browser is spoken to.
    fn language(&self, headers: &HeaderMap) -> Lang {
        let accepted = || headers.get(header::ACCEPT_LANGUAGE).and_then(|v| v.to_str().ok());
        self.lang.or_else(|| Lang::from_accepted(accepted()?)).unwrap_or_default()
    }

    /// Has something read off the shelf when it is the asker's turn; or why not.
    async fn read<T: Send + 'static>(
        &self,
        headers: &HeaderMap,
        read: impl FnOnce(&dyn Shelf) -> T + Send + 'static,
    ) -> Result<(Ticket, T), Response> {
        let may = self.guard.admit(headers, May::See).map_err(refuse)?;
        let ticket =
            tokio::time::timeout(self.limits.turn_within, self.queue.enter(may)).await.ok().flatten();
        let Some(mut ticket) = ticket else {
            return Err(refusal(
                StatusCode::SERVICE_UNAVAILABLE,
                "Too many are reading. Try again in a moment.",
            ));
        };
        let shelf = Arc::clone(&self.shelf);
        let done = tokio::task::spawn_blocking(move || {
            let read = read(&*shelf);
            // Held by the thread that reads: whoever goes away meanwhile does not make room for a second reader.
            ticket.made();
            (ticket, read)
        });
        done.await.map_err(|e| refusal(StatusCode::INTERNAL_SERVER_ERROR, &e.to_string()))
    }
}

/// Bytes of a report that are handed to the connection at a time.
/// Own choice: what one call of the system takes; a slow reader holds no more than this beside the whole.
const PIECE: usize = 32 * 1024;

/// A whole answer that is in memory until it is taken; whoever does not take it in time loses his connection.
fn held(page: Bytes, ticket: Ticket, caller: Caller, limits: Limits) -> Body {
    let ticket = Arc::new(ticket);
    let taken = Arc::downgrade(&ticket);
    tokio::spawn(async move {
        tokio::time::sleep(limits.report_within).await;
        if taken.strong_count() > 0 {
            caller.end();
        }
    });
    let pieces = (0..page.len()).step_by(PIECE);
    let pieces = pieces.map(move |from| {
        let _held = &ticket;
        Ok::<_, Infallible>(page.slice(from..page.len().min(from + PIECE)))
    });
    Body::from_stream(tokio_stream::iter(pieces))
}

/// What reads a disk does it where it may wait.
async fn blocking<T: Send + 'static>(
    work: impl FnOnce() -> Result<T, String> + Send + 'static,
) -> Result<T, String> {
    tokio::task::spawn_blocking(work).await.unwrap_or_else(|e| Err(e.to_string()))
}

fn text(kind: &'static str, body: &'static str) -> Response {
    ([(header::CONTENT_TYPE, kind)], body).into_response()
}

fn json(status: StatusCode, value: &impl Serialize) -> Response {
    let body = serde_json::to_string(value).unwrap_or_default();
    (status, [(header::CONTENT_TYPE, "application/json")], body).into_response()
}

fn refusal(status: StatusCode, says: &str) -> Response {
    json(status, &Answer { ok: false, says })
}

/// The last answer on its connection: what of the request is still on its way is not waited for.
fn last(mut response: Response) -> Response {
    response.headers_mut().insert(header::CONNECTION, HeaderValue::from_static("close"));
    response
}

fn refuse(refused: Refused) -> Response {
    refusal(refused.status(), refused.says())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_that_a_browser_loads_is_small_and_comes_from_us() {
        let all = [PAGE, STYLE, SCRIPT, SOUND, SHEET];
        assert!(all.iter().map(|a| a.len()).sum::<usize>() <= 150 * 1024);
        for asset in all {
            for elsewhere in ["http://", "https://", "//cdn", "@import", "url("] {
                let own = asset.replace("http://www.w3.org/2000/svg", "");
                assert!(!own.contains(elsewhere), "{elsewhere}");
            }
        }
        assert!(!PAGE.contains("<style") && !PAGE.contains(" style=") && !PAGE.contains("onclick"));
    }
}

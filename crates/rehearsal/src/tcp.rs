//! The simulated adapter behind a TCP port, as a wireless adapter is: one client at a time, no rate.

use std::sync::{Arc, Mutex, PoisonError};

use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};
use tokio::net::TcpListener;
use units::{Clock, Mono};

use crate::pty::Bench;

/// Serves one client after the other, for good.
///
/// # Errors
/// Where the port itself fails.
pub async fn serve<B: Bench>(
    listener: TcpListener,
    share: Arc<Mutex<B>>,
    clock: Arc<dyn Clock>,
    nudge: Arc<tokio::sync::Notify>,
) -> std::io::Result<()> {
    loop {
        let (mut stream, _) = listener.accept().await?;
        let _ = stream.set_nodelay(true);
        let mut buffer = [0_u8; 1_024];
        if !share.lock().unwrap_or_else(PoisonError::into_inner).plugged() {
            continue;
        }
        share.lock().unwrap_or_else(PoisonError::into_inner).opened(clock.now());
        loop {
            let now = clock.now();
            let (bytes, deadline, plugged) = {
                let mut bench = share.lock().unwrap_or_else(PoisonError::into_inner);
                if bench.deadline().is_some_and(|at| now >= at) {
                    bench.wake(now);
                }
                let bytes: Vec<u8> = std::iter::from_fn(|| bench.give(now)).flatten().collect();
                (bytes, bench.deadline(), bench.plugged())
            };
            if !plugged || stream.write_all(&bytes).await.is_err() {
                break;
            }
            tokio::select! {
                biased;
                result = stream.read(&mut buffer) => match result {
                    Ok(n) if n > 0 => {
                        let heard = buffer.get(..n).unwrap_or_default();
                        share.lock().unwrap_or_else(PoisonError::into_inner).take(heard, clock.now());
                    }
                    _ => break,
                },
                () = nudge.notified() => {}
                () = clock.sleep_until(deadline.unwrap_or(Mono::from_millis(u64::MAX / 2))), if deadline.is_some() => {}
            }
        }
        share.lock().unwrap_or_else(PoisonError::into_inner).closed(clock.now());
    }
}

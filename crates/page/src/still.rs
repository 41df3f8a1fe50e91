//! A clock for tests that need none.

use units::{Clock, Mono, Sleep};

pub(crate) struct Still;

impl Clock for Still {
    fn now(&self) -> Mono {
        Mono::ZERO
    }
    fn wall_millis(&self) -> i64 {
        0
    }
    fn sleep_until(&self, _: Mono) -> Sleep {
        Box::pin(std::future::pending())
    }
}

//! A link that is open already, for an opener's first call.
//!
//! Some wireless adapters serve one connection in each power-up: whoever tries the port first and closes it has used that up.
//! In: an open [`Link`] and the [`Opener`] for all others. Out: an opener.

use std::sync::{Mutex, PoisonError};

use super::{Link, Opener, Opening};

/// An opener that hands out a link once, before it opens any.
pub struct Held<O> {
    first: Mutex<Option<Box<dyn Link>>>,
    then: O,
}

impl<O: Opener> Held<O> {
    /// `first` is given to whoever asks first; later ones are opened by `then`.
    pub fn new(first: Box<dyn Link>, then: O) -> Self {
        Self { first: Mutex::new(Some(first)), then }
    }
}

impl<O: Opener> Opener for Held<O> {
    fn open(&self) -> Opening<'_> {
        match self.first.lock().unwrap_or_else(PoisonError::into_inner).take() {
            Some(link) => Box::pin(std::future::ready(Ok(link))),
            None => self.then.open(),
        }
    }

    fn describe(&self) -> String {
        self.then.describe()
    }
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::{AtomicU32, Ordering};

    use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};

    use super::*;

    /// Counts how often it opens.
    #[derive(Default)]
    struct Counting(AtomicU32);

    impl Opener for Counting {
        fn open(&self) -> Opening<'_> {
            self.0.fetch_add(1, Ordering::Relaxed);
            Box::pin(std::future::ready(Ok(Box::new(tokio::io::duplex(8).0) as Box<dyn Link>)))
        }

        fn describe(&self) -> String {
            "an adapter".to_owned()
        }
    }

    #[tokio::test]
    async fn the_link_that_is_there_is_used_before_another_is_opened() {
        let (mut adapter, ours) = tokio::io::duplex(8);
        let held = Held::new(Box::new(ours), Counting::default());
        assert_eq!(held.describe(), "an adapter");
        let mut first = held.open().await.unwrap();
        first.write_all(b"ATI\r").await.unwrap();
        let mut heard = [0; 4];
        adapter.read_exact(&mut heard).await.unwrap();
        assert_eq!(&heard, b"ATI\r", "the very one");
        assert_eq!(held.then.0.load(Ordering::Relaxed), 0, "none was opened for it");
        held.open().await.unwrap();
        assert_eq!(held.then.0.load(Ordering::Relaxed), 1);
    }
}

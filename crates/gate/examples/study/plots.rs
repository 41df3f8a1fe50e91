//! The pictures of docs/gate.md, drawn from the program's own mathematics and from recordings.
//!
//! In: the public interfaces of `gate` and `fluid`, fixtures/warmups. Out: docs/pictures/gate-*.svg, the same bytes on each run.
//! A picture is one file in `plots/` and one row of [`ALL`]. Not here: the mathematics.

mod budget;
mod forecast;
mod guard;
mod nodes;
mod paper;
mod warmup;

use crate::{Done, root};

/// A picture: its file in docs/pictures, and how it is drawn.
type Picture = (&'static str, fn() -> Result<String, String>);

const ALL: [Picture; 5] = [
    ("gate-forecast.svg", forecast::draw),
    ("gate-warmup.svg", warmup::draw),
    ("gate-budget.svg", budget::draw),
    ("gate-guard.svg", guard::draw),
    ("gate-nodes.svg", nodes::draw),
];

/// Draws every picture anew.
pub fn write() -> Done {
    for (name, draw) in ALL {
        let path = root().join("docs/pictures").join(name);
        let picture = draw()?;
        println!("{name}: {} bytes", picture.len());
        std::fs::write(&path, picture).map_err(|e| format!("{}: {e}", path.display()))?;
    }
    Ok(())
}

/// Every committed picture is what the program draws, and no larger than it should be.
pub fn check() -> Done {
    ALL.into_iter().try_for_each(same)
}

fn same((name, draw): Picture) -> Done {
    let picture = draw()?;
    if picture.len() > LARGEST {
        return Err(format!("{name} has {} bytes, more than {LARGEST}", picture.len()));
    }
    let committed = std::fs::read_to_string(root().join("docs/pictures").join(name)).unwrap_or_default();
    if committed == picture {
        Ok(())
    } else {
        Err(format!(
            "docs/pictures/{name} is not what the program draws: run `cargo xtask plots` and look at it"
        ))
    }
}

/// Bytes of a picture at most.
const LARGEST: usize = 40_000;

//! What is generated from the types and from the command line: schema, completions, manual pages.

use std::io::Write as _;
use std::path::Path;

use clap::{Args, Command};
use schemars::{Schema, schema_for};

use crate::failure::{Exit, Failure};
use crate::screen::Screen;

/// Arguments of `schema`.
#[derive(Debug, Args)]
pub struct SchemaArgs {
    /// Which: every line of the socket, what may be told, or the sheet. All of them where absent.
    #[arg(value_parser = ["line", "told", "sheet"])]
    which: Option<String>,
    /// Write one file each into this folder instead of stdout.
    #[arg(long, value_name = "DIR")]
    into: Option<std::path::PathBuf>,
}

/// The schemas by name.
fn schemas() -> [(&'static str, Schema); 3] {
    [
        ("line", schema_for!(::events::SocketLine)),
        ("told", schema_for!(::events::Told)),
        ("sheet", schema_for!(::events::Sheet)),
    ]
}

/// `schema`.
pub fn schema(args: &SchemaArgs, screen: Screen) -> Result<(), Failure> {
    let wanted = schemas().into_iter().filter(|(name, _)| args.which.as_deref().is_none_or(|w| w == *name));
    for (name, schema) in wanted {
        let text =
            serde_json::to_string_pretty(&schema).map_err(|e| Failure::new(Exit::Software, e.to_string()))?;
        match &args.into {
            None => screen.line(&text)?,
            Some(folder) => {
                let path = folder.join(format!("{name}.schema.json"));
                std::fs::write(&path, text + "\n").map_err(|e| Failure::file("write", &path, &e))?;
            }
        }
    }
    Ok(())
}

/// `completions`.
pub fn completions(shell: clap_complete::Shell, mut line: Command) -> Result<(), Failure> {
    let mut text = Vec::new();
    clap_complete::generate(shell, &mut line, "standpipe", &mut text);
    std::io::stdout().write_all(&text).map_err(|e| Failure::new(Exit::InputOutput, e.to_string()))
}

/// `man`.
pub fn man(folder: Option<&Path>, line: Command) -> Result<(), Failure> {
    if let Some(folder) = folder {
        return clap_mangen::generate_to(line, folder)
            .map_err(|e| Failure::file("write manual pages into", folder, &e));
    }
    let mut text = Vec::new();
    clap_mangen::Man::new(line)
        .render(&mut text)
        .and_then(|()| std::io::stdout().write_all(&text))
        .map_err(|e| Failure::new(Exit::InputOutput, e.to_string()))
}

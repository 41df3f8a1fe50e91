//! The configuration of one bay, `serve --config FILE`: what the command line says, kept in a file.
//!
//! In: TOML. Out: [`Configuration`], each value absent where the file does not name it; what stands on the command line goes before
//! it. Every key is the long option of the same name; one that nobody knows is refused. Not here: what the values mean (`serve.rs`).

use std::net::SocketAddr;
use std::path::{Path, PathBuf};

use page::Name;
use serde::Deserialize;
use serde::de::{Deserializer, Error as _};
use words::Lang;

use crate::cli::Units;
use crate::failure::{Exit, Failure};

/// See the module's words.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case", default)]
pub struct Configuration {
    /// Where the adapter is.
    pub device: Option<String>,
    /// Start without the adapter, too.
    pub wait: Option<bool>,
    /// The sheet of the vehicle.
    pub sheet: Option<PathBuf>,
    /// The folder of sheets.
    pub sheets: Option<PathBuf>,
    /// The folder of the journal.
    pub journal: Option<PathBuf>,
    /// Clients of the socket at a time.
    pub clients: Option<u16>,
    /// A group that may use the socket too.
    pub socket_group: Option<String>,
    /// Where the phone page is served.
    pub page: Option<SocketAddr>,
    /// Names under which browsers reach this machine.
    #[serde(deserialize_with = "spelled_all")]
    pub page_name: Vec<Name>,
    /// Ask for a pairing on this machine too.
    pub page_pair: Option<bool>,
    /// The units people read on the page.
    pub units: Option<Units>,
    /// The language of the page.
    #[serde(deserialize_with = "spelled")]
    pub lang: Option<Lang>,
}

/// The example, with every key explained: what a package puts where a person changes it.
pub const EXAMPLE: &str = include_str!("../crates/xtask/package/bay.toml");

impl Configuration {
    /// Reads the file; a path in it that does not begin at the root begins at its folder.
    ///
    /// # Errors
    /// Where it cannot be read, is no TOML, or has a key or a value that nobody knows.
    pub fn read(path: &Path) -> Result<Self, Failure> {
        let text = std::fs::read_to_string(path).map_err(|e| {
            Failure::file("read", path, &e).try_this("`standpipe serve --config-example` prints one")
        })?;
        let mut read = Self::parse(&text).map_err(|e| {
            Failure::new(Exit::Config, format!("the configuration {}: {e}", path.display())).try_this(
                "`standpipe serve --config-example` prints one with every key; each is an option of `standpipe serve --help`",
            )
        })?;
        let folder = path.parent().unwrap_or(Path::new(""));
        for inside in [&mut read.sheet, &mut read.sheets, &mut read.journal].into_iter().flatten() {
            *inside = folder.join(&inside);
        }
        Ok(read)
    }

    fn parse(text: &str) -> Result<Self, String> {
        let read: Self = toml::from_str(text).map_err(|e| e.to_string().trim_end().to_owned())?;
        if let Some(clients) = read.clients.filter(|n| !CLIENTS.contains(n)) {
            let (low, high) = (CLIENTS.start(), CLIENTS.end());
            return Err(format!("`clients` is {clients}, and must be {low} to {high}"));
        }
        if read.page.is_none() && (!read.page_name.is_empty() || read.page_pair.is_some()) {
            return Err(
                "`page-name` and `page-pair` say how `page` is served, and there is no `page`".to_owned()
            );
        }
        Ok(read)
    }
}

/// A word as the command line has it.
fn spelled<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<Lang>, D::Error> {
    String::deserialize(deserializer)?.parse().map(Some).map_err(D::Error::custom)
}

/// Names as the command line has them.
fn spelled_all<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<Name>, D::Error> {
    let texts = Vec::<String>::deserialize(deserializer)?;
    texts.iter().map(|text| text.parse().map_err(D::Error::custom)).collect()
}

/// Places at the socket that can be asked for.
/// Own choice: one for the page and one for others at least; at most what a small machine's memory holds with ease.
pub const CLIENTS: std::ops::RangeInclusive<u16> = 2..=4_096;

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory as _;
    use std::collections::BTreeSet;

    /// The example with each value that is commented out put in.
    fn all_put_in() -> String {
        let put_in = |line: &str| match line.strip_prefix("#") {
            Some(rest) if rest.starts_with(|c: char| c.is_ascii_lowercase()) => rest.to_owned(),
            _ => line.to_owned(),
        };
        EXAMPLE.lines().map(put_in).collect::<Vec<_>>().join("\n")
    }

    #[test]
    fn the_example_can_be_used_as_it_is_and_with_every_value_put_in() {
        let as_it_is = Configuration::parse(EXAMPLE).unwrap();
        assert!(as_it_is.page.is_none(), "no page unless somebody wants it");
        let all = Configuration::parse(&all_put_in()).unwrap();
        assert_eq!(all.clients, Some(64));
        assert!(all.page.is_some() && all.sheet.is_some() && !all.page_name.is_empty());
        assert_eq!(all.lang, Some(Lang::En));
    }

    #[test]
    fn every_key_stands_in_the_example_and_is_an_option_of_serve() {
        let table: toml::Table = toml::from_str(&all_put_in()).unwrap();
        let keys: BTreeSet<&str> = table.keys().map(String::as_str).collect();
        // What the program knows, by its own words about a key that it does not.
        let said = Configuration::parse("wrong = 1").unwrap_err();
        let known: BTreeSet<&str> =
            said.split_once("expected one of").unwrap().1.split('`').skip(1).step_by(2).collect();
        assert_eq!(keys, known);
        let line = crate::cli::Cli::command();
        let serve = line.find_subcommand("serve").unwrap();
        let options: BTreeSet<&str> =
            line.get_arguments().chain(serve.get_arguments()).filter_map(|a| a.get_long()).collect();
        assert!(keys.is_subset(&options), "{keys:?} {options:?}");
    }

    #[test]
    fn what_is_wrong_is_named_with_its_place() {
        for (text, want) in [
            ("divice = \"auto\"", "unknown field `divice`"),
            ("\nclients = \"many\"", "line 2"),
            ("clients = 1", "`clients` is 1, and must be 2 to 4096"),
            ("page-pair = true", "there is no `page`"),
            ("units = \"stones\"", "unknown variant `stones`"),
            ("lang = \"xx\"", "line 1"),
        ] {
            let said = Configuration::parse(text).unwrap_err();
            assert!(said.contains(want), "{text}: {said}");
        }
    }

    #[test]
    fn a_path_begins_at_the_folder_of_the_file() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("left.toml");
        std::fs::write(&path, "sheet = \"six.toml\"\njournal = \"/var/lib/standpipe\"\n").unwrap();
        let read = Configuration::read(&path).unwrap();
        assert_eq!(read.sheet.unwrap(), folder.path().join("six.toml"));
        assert_eq!(read.journal.unwrap(), Path::new("/var/lib/standpipe"));
    }
}

//! Every number with a name in product code says beside it where it comes from.
//!
//! In: the sources of [`CRATES`] and of the command line, without their tests; the files of [`TABLES`]. Out: each constant that is a
//! number, and each field of a table of limits, whose words have none of [`HEADS`]. Constants without a blank line between them are a
//! block: one without words of its own stands under the words before it, and a `//` line at its head stands for all of the block.
//! Not here: whether the source is right, formulas, tables whose rows name their own (their type is no number).

use std::collections::BTreeSet;
use std::path::Path;

/// The crates whose constants are looked at.
const CRATES: &[&str] = &[
    "adapter",
    "client",
    "events",
    "find",
    "fluid",
    "frames",
    "gate",
    "job",
    "page",
    "rehearsal",
    "relay",
    "service",
    "sheets",
    "units",
    "view",
    "xtask",
];
/// Files with a table of limits: there each field that is a number names its source, too.
const TABLES: &[&str] =
    &["crates/gate/src/limits.rs", "crates/page/src/limits.rs", "crates/service/src/socket.rs"];
/// How the words begin; behind them stands something, but for the last, which may stand alone.
const HEADS: &[&str] = &["Source: ", "Own choice: ", BY_DEFINITION];
const BY_DEFINITION: &str = "By definition";
/// What is written where none is.
const WRITE: &str = "write `Source: …`, `Own choice: why`, or `By definition` into its words";
/// A constant of one of these types is a number, and so is one that holds them.
const NUMBERS: &[&str] = &[
    "u8",
    "u16",
    "u32",
    "u64",
    "u128",
    "usize",
    "i8",
    "i16",
    "i32",
    "i64",
    "i128",
    "isize",
    "f32",
    "f64",
    "Duration",
    "Mono",
    "Celsius",
    "Kelvins",
    "Millilitres",
    "Millimetres",
    "Degrees",
    "Range",
    "Self",
];

/// All of them.
pub(super) fn check(root: &Path) -> Vec<String> {
    let mut folders: Vec<String> = CRATES.iter().map(|name| format!("crates/{name}/src")).collect();
    folders.push("src".to_owned());
    let mut broken = Vec::new();
    for folder in folders {
        let mut texts = Vec::new();
        gather(root, &folder, &mut texts);
        if texts.is_empty() {
            broken.push(format!("{folder}: no sources"));
        }
        let tests = tests(&texts);
        let shipped = texts.iter().filter(|(file, _)| !tests.iter().any(|test| is_of(file, test)));
        broken.extend(shipped.flat_map(|(file, text)| constants(file, text)));
    }
    for file in TABLES {
        match std::fs::read_to_string(root.join(file)) {
            Ok(text) => broken.extend(fields(file, &text)),
            Err(e) => broken.push(format!("{file}: {e}")),
        }
    }
    broken
}

/// Every source below `folder` with its text.
fn gather(root: &Path, folder: &str, texts: &mut Vec<(String, String)>) {
    let Ok(entries) = std::fs::read_dir(root.join(folder)) else { return };
    for path in entries.flatten().map(|entry| entry.path()) {
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        let inside = format!("{folder}/{name}");
        if path.is_dir() {
            gather(root, &inside, texts);
        } else if name.ends_with(".rs") {
            texts.push((inside, std::fs::read_to_string(&path).unwrap_or_default()));
        }
    }
}

/// The modules that are there for tests alone, as paths without their end.
fn tests(texts: &[(String, String)]) -> BTreeSet<String> {
    let mut tests = BTreeSet::new();
    for (file, text) in texts {
        let stem = file.strip_suffix(".rs").unwrap_or(file);
        let (folder, name) = stem.rsplit_once('/').unwrap_or(("", stem));
        let inside = if ["lib", "main", "mod"].contains(&name) { folder } else { stem };
        let mut lines = text.lines().map(str::trim);
        while let Some(line) = lines.next() {
            if line == "#[cfg(test)]"
                && let Some(module) = behind_attributes(&mut lines).and_then(module)
            {
                tests.insert(format!("{inside}/{module}"));
            }
        }
    }
    tests
}

/// The first line that belongs to no attribute.
fn behind_attributes<'a>(lines: &mut impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let mut open = 0_usize;
    lines.find(|line| {
        let inside = open > 0 || line.starts_with("#[");
        if inside {
            open = (open + line.matches('[').count()).saturating_sub(line.matches(']').count());
        }
        !inside
    })
}

/// The module of that name has its own file.
fn module(line: &str) -> Option<&str> {
    declared(line).strip_prefix("mod ")?.strip_suffix(';')
}

fn is_of(file: &str, module: &str) -> bool {
    file.strip_prefix(module).is_some_and(|rest| rest == ".rs" || rest.starts_with('/'))
}

/// What stands behind who may see it.
fn declared(line: &str) -> &str {
    match line.strip_prefix("pub") {
        Some(rest) if rest.starts_with('(') => rest.split_once(") ").map_or(rest, |(_, rest)| rest),
        Some(rest) => rest.trim_start(),
        None => line,
    }
}

/// The constants of `text` that are numbers and name no source.
fn constants(file: &str, text: &str) -> Vec<String> {
    let mut broken = Vec::new();
    let mut words = Words::default();
    let mut lines = text.lines().map(str::trim).enumerate();
    while let Some((at, line)) = lines.next() {
        if line == "#[cfg(test)]" {
            let behind = behind_attributes(&mut lines.by_ref().map(|(_, line)| line));
            if behind.is_some_and(|line| declared(line).starts_with("mod ") && line.ends_with('{')) {
                break;
            }
            words = Words::default();
            continue;
        }
        if words.takes(line) || line.starts_with("#[") {
            continue;
        }
        let Some((name, of, begun)) = constant(line) else {
            words = Words::default();
            continue;
        };
        let mut value = begun.to_owned();
        while !value.ends_with(';') {
            let Some((_, more)) = lines.next() else { break };
            value.push(' ');
            value.push_str(more);
        }
        if is_number(of) && has_digit(&value) && !words.name_one() {
            broken.push(format!("{}:{}: `{name}` names no source: {WRITE}", file, at + 1));
        }
        words.of_another = true;
    }
    broken
}

/// The words over a constant, and over its block.
#[derive(Default)]
struct Words {
    own: String,
    block: String,
    /// They are those of the constant before.
    of_another: bool,
}

impl Words {
    /// Whether `line` was more of them.
    fn takes(&mut self, line: &str) -> bool {
        if let Some(words) = line.strip_prefix("///") {
            if self.of_another {
                self.own.clear();
            }
            self.of_another = false;
            self.own.push_str(words.trim());
            self.own.push(' ');
        } else if let Some(words) = line.strip_prefix("//") {
            self.block.push_str(words.trim());
            self.block.push(' ');
        } else {
            return false;
        }
        true
    }

    fn name_one(&self) -> bool {
        names_one(&self.own) || names_one(&self.block)
    }
}

/// Whether some of `words` say where a number comes from.
fn names_one(words: &str) -> bool {
    HEADS.iter().any(|head| {
        words.match_indices(head).any(|(at, _)| {
            let rest = words.get(at + head.len()..).unwrap_or_default().trim_start();
            *head == BY_DEFINITION || rest.split_whitespace().next().is_some()
        })
    })
}

/// Name, type and beginning of the value of the constant that a line declares.
fn constant(line: &str) -> Option<(&str, &str, &str)> {
    let declared = declared(line);
    let rest = declared.strip_prefix("const ").or(declared.strip_prefix("static "))?;
    let (name, rest) = rest.split_once(": ")?;
    let (of, value) = rest.split_once(" =")?;
    let is_name = name.chars().all(|c| c.is_ascii_uppercase() || c.is_ascii_digit() || c == '_');
    is_name.then_some((name, of, value))
}

fn is_number(of: &str) -> bool {
    of.split(|c: char| !c.is_ascii_alphanumeric() && c != '_').any(|word| NUMBERS.contains(&word))
}

/// Whether a number stands in `value`; texts and names do not count.
fn has_digit(value: &str) -> bool {
    let mut before = ' ';
    let mut texts = value.split('"');
    let mut code = String::new();
    while let Some(part) = texts.next() {
        code.push_str(part);
        code.push(' ');
        let _ = texts.next();
    }
    code.chars().any(|c| {
        let begins = c.is_ascii_digit() && !before.is_ascii_alphanumeric() && before != '_';
        before = c;
        begins
    })
}

/// The fields of `text` that are numbers and name no source.
fn fields(file: &str, text: &str) -> Vec<String> {
    let mut broken = Vec::new();
    let mut words = String::new();
    for (at, line) in text.lines().map(str::trim).enumerate() {
        if let Some(more) = line.strip_prefix("///") {
            words.push_str(more.trim());
            words.push(' ');
        } else if !line.starts_with("#[") {
            if let Some(name) = field(line).filter(|_| !names_one(&words)) {
                broken.push(format!("{file}:{}: `{name}` names no source: {WRITE}", at + 1));
            }
            words.clear();
        }
    }
    broken
}

/// The name of the public field that a line declares, if it is a number.
fn field(line: &str) -> Option<&str> {
    let (name, of) = line.strip_prefix("pub ")?.strip_suffix(',')?.split_once(": ")?;
    (is_number(of) && name.chars().all(|c| c.is_ascii_alphanumeric() || c == '_')).then_some(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The names that are found wanting.
    fn wanting(text: &str) -> Vec<String> {
        let named = |line: &String| line.split('`').nth(1).unwrap_or_default().to_owned();
        constants("x.rs", text).iter().map(named).collect()
    }

    #[test]
    fn a_constant_names_its_source_or_is_found() {
        let cases: &[(&str, &str, &[&str])] = &[
            ("nothing said", "const A: u8 = 1;", &["A"]),
            ("words without a source", "/// Some.\nconst A: u8 = 1;", &["A"]),
            ("a source", "/// Some.\n/// Source: ISO 1.\nconst A: u8 = 1;", &[]),
            ("a source without words", "/// Source: \nconst A: u8 = 1;", &["A"]),
            (
                "a choice and why",
                "/// Own choice: more is felt.\npub(crate) const A: Duration = Duration::from_secs(1);",
                &[],
            ),
            ("a choice and no why", "/// Own choice.\nconst A: f64 = 1.0;", &["A"]),
            ("by definition", "/// By definition.\nconst A: f64 = 60.0;", &[]),
            ("attributes between", "/// Source: x.\n#[rustfmt::skip]\nconst A: u8 = 1;", &[]),
            ("a block under one", "/// Source: x.\nconst A: u8 = 1;\nconst B: u8 = 2;", &[]),
            (
                "one of a block with words of its own",
                "/// Source: x.\nconst A: u8 = 1;\n/// Other.\nconst B: u8 = 2;\nconst C: u8 = 2;",
                &["B", "C"],
            ),
            ("a line ends a block", "/// Source: x.\nconst A: u8 = 1;\n\nconst B: u8 = 2;", &["B"]),
            (
                "a head for all of a block",
                "// By definition: bits.\n/// One.\nconst A: u8 = 1;\n/// Two.\nconst B: u8 = 2;\n\nconst C: u8 = 3;",
                &["C"],
            ),
            ("in an impl", "impl X {\n    /// Some.\n    pub const A: usize = 3;\n}", &["A"]),
            ("a static", "static A: u32 = 4;", &["A"]),
            ("a row of numbers", "const A: &[u32] = &[\n    B,\n    7,\n];", &["A"]),
            ("made of others", "const A: u32 = B * C;", &[]),
            (
                "text and names",
                "const A: &[u8] = b\"7e8\";\nconst B: &str = \"1\";\nconst C: u8 = U8_1;",
                &[],
            ),
            ("a table of rows", "const A: &[Row] = &[row(1)];", &[]),
            ("a function", "pub const fn a(of: u8) -> u8 { 1 }", &[]),
            ("tests", "#[cfg(test)]\nmod tests {\n    const A: u8 = 1;\n}", &[]),
            (
                "behind tests that lie in a file",
                "#[cfg(test)]\n#[allow(\n    clippy::x,\n)]\nmod told;\nconst A: u8 = 1;",
                &["A"],
            ),
        ];
        for (what, text, want) in cases {
            assert_eq!(wanting(text), *want, "{what}");
        }
    }

    #[test]
    fn what_is_found_says_where_and_what_to_write() {
        assert_eq!(
            constants("a/b.rs", "//! Head.\n\nconst A: u8 = 1;\n"),
            [format!("a/b.rs:3: `A` names no source: {WRITE}")]
        );
    }

    #[test]
    fn a_field_of_a_table_of_limits_names_its_source_or_is_found() {
        let text = "pub struct Limits {\n    /// Age.\n    /// Source: x.\n    pub age: f64,\n    /// Step.\n    pub step: Duration,\n    \
            pub of: Option<Surface>,\n}\npub fn new(of: u8) -> Self {\n";
        assert_eq!(fields("x.rs", text), [format!("x.rs:6: `step` names no source: {WRITE}")]);
    }

    #[test]
    fn modules_for_tests_alone_are_left_out() {
        let texts = [
            ("src/lib.rs".to_owned(), "#[cfg(test)]\nmod six;\nmod rest;\n".to_owned()),
            (
                "src/rest.rs".to_owned(),
                "#[cfg(test)]\n#[allow(\n    a,\n)]\npub(crate) mod power;\n".to_owned(),
            ),
        ];
        let tests = tests(&texts);
        for (file, is_test) in [
            ("src/six.rs", true),
            ("src/six/more.rs", true),
            ("src/sixty.rs", false),
            ("src/rest/power.rs", true),
            ("src/rest.rs", false),
        ] {
            assert_eq!(tests.iter().any(|test| is_of(file, test)), is_test, "{file}");
        }
    }

    #[test]
    fn every_number_of_the_product_names_one() {
        let broken = check(&crate::shell::root());
        assert!(broken.is_empty(), "{}", broken.join("\n"));
    }
}

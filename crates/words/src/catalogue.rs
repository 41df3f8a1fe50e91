//! The catalogue: messages by name, for each language read once from its file.
//!
//! In: a name, and what stands in the message. Out: the text. A message without variables is kept as it is, so that a
//! screen that is painted ten times a second formats nothing.

use std::collections::HashMap;
use std::sync::OnceLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use fluent_syntax::ast::{Entry, PatternElement};
use units::Listed;

use crate::Lang;

/// What stands in a message: a name, and a text or a number.
pub type Fact<'a> = (&'static str, FluentValue<'a>);

/// What stands in a message: `args!(amount = text, count = 3)`.
#[macro_export]
macro_rules! args {
    ($($name:ident = $value:expr),* $(,)?) => { [$((stringify!($name), $crate::value($value))),*] };
}

/// A text or a number as it stands in a message.
pub fn value<'a>(value: impl Into<FluentValue<'a>>) -> FluentValue<'a> {
    value.into()
}

/// One language.
struct Catalogue {
    bundle: FluentBundle<FluentResource>,
    /// Messages and attributes without variables: `name`, `name.attribute`.
    plain: HashMap<String, String>,
    /// A native speaker has checked it.
    checked: bool,
}

impl Lang {
    const fn files(self) -> &'static [&'static str] {
        match self {
            Self::En => &[include_str!("../lang/en.ftl")],
            Self::De => &[include_str!("../lang/de.ftl")],
            Self::Es => &[include_str!("../lang/es.ftl")],
            Self::Fr => &[include_str!("../lang/fr.ftl")],
            Self::Pt => &[include_str!("../lang/pt.ftl")],
            Self::Pl => &[include_str!("../lang/pl.ftl")],
            Self::Hi => &[include_str!("../lang/hi.ftl")],
        }
    }

    fn catalogue(self) -> &'static Catalogue {
        static ALL: [OnceLock<Catalogue>; Lang::ALL.len()] = [const { OnceLock::new() }; Lang::ALL.len()];
        static NONE: OnceLock<Catalogue> = OnceLock::new();
        ALL.get(self as usize).unwrap_or(&NONE).get_or_init(|| Catalogue::read(self))
    }

    /// Whether a native speaker has checked it. Until then English stands beside the cautions.
    pub fn is_checked(self) -> bool {
        self.catalogue().checked
    }

    /// A message without variables; in English where the language lacks it.
    pub fn text(self, name: &'static str) -> &'static str {
        let own = self.catalogue().plain.get(name);
        own.or_else(|| Self::En.catalogue().plain.get(name)).map_or(name, String::as_str)
    }

    /// A message with what stands in it; in English where the language lacks it.
    pub fn with(self, name: &'static str, facts: &[Fact<'_>]) -> String {
        self.by_name(name, facts.iter().cloned())
    }

    /// A message whose name is only known as the program runs.
    pub fn by_name<'a>(self, name: &str, facts: impl Iterator<Item = (&'a str, FluentValue<'a>)>) -> String {
        let args: FluentArgs<'a> = facts.collect();
        let said = |lang: Self| lang.catalogue().say(name, &args);
        said(self).or_else(|| said(Self::En)).unwrap_or_else(|| name.to_owned())
    }

    /// The sentence of a row of a list.
    pub fn of<L: Listed>(self, row: L) -> &'static str {
        if self == Self::En {
            return row.as_sentence();
        }
        let own = self.catalogue().plain.get(&row_name(row));
        own.map_or(row.as_sentence(), String::as_str)
    }

    /// Another sentence of a row of a list; `english` is that of the table.
    pub fn also<L: Listed>(self, row: L, attribute: &str, english: &'static str) -> &'static str {
        if self == Self::En || english.is_empty() {
            return english;
        }
        let own = self.catalogue().plain.get(&format!("{}.{attribute}", row_name(row)));
        own.map_or(english, String::as_str)
    }
}

/// `Advice-open-port`.
fn row_name<L: Listed>(row: L) -> String {
    format!("{}-{}", L::NAME, row.as_word())
}

impl Catalogue {
    fn read(lang: Lang) -> Self {
        let tag: unic_langid::LanguageIdentifier = lang.code().parse().unwrap_or_default();
        let mut bundle = FluentBundle::new_concurrent(vec![tag]);
        // Marks around what stands in a message would be shown by a terminal.
        bundle.set_use_isolating(false);
        let mut plain = HashMap::new();
        for file in lang.files() {
            let resource = match FluentResource::try_new((*file).to_owned()) {
                Ok(resource) => resource,
                // What can be read of it stays; a test holds that all of it can.
                Err((resource, _)) => resource,
            };
            for entry in resource.entries() {
                let Entry::Message(message) = entry else { continue };
                let mut keep = |name: String, pattern: &fluent_syntax::ast::Pattern<&str>| {
                    if let Some(text) = as_it_is(&pattern.elements) {
                        plain.insert(name, text);
                    }
                };
                if let Some(pattern) = &message.value {
                    keep(message.id.name.to_owned(), pattern);
                }
                for attribute in &message.attributes {
                    keep(format!("{}.{}", message.id.name, attribute.id.name), &attribute.value);
                }
            }
            // A name that is there twice keeps its first message; a test holds that there is none.
            let _twice = bundle.add_resource(resource);
        }
        let checked = !lang.files().iter().any(|file| file.lines().any(|line| line == UNCHECKED));
        Self { bundle, plain, checked }
    }

    fn say(&self, name: &str, args: &FluentArgs<'_>) -> Option<String> {
        let pattern = self.bundle.get_message(name)?.value()?;
        let mut wrong = Vec::new();
        Some(self.bundle.format_pattern(pattern, Some(args), &mut wrong).into_owned())
    }
}

/// The text of a message without variables.
fn as_it_is(elements: &[PatternElement<&str>]) -> Option<String> {
    let text = |element: &PatternElement<&str>| match element {
        PatternElement::TextElement { value } => Some((*value).to_owned()),
        PatternElement::Placeable { .. } => None,
    };
    elements.iter().map(text).collect()
}

/// The names of all messages of a language, with the variables of each, in the order of its file.
pub fn message_names(lang: Lang) -> Vec<(String, Vec<String>)> {
    let mut names = Vec::new();
    for file in lang.files() {
        let Ok(resource) = fluent_syntax::parser::parse(*file) else { return Vec::new() };
        for entry in &resource.body {
            let Entry::Message(message) = entry else { continue };
            let mut add = |name: String, pattern| {
                let mut found = Vec::new();
                variables(pattern, &mut found);
                found.sort();
                found.dedup();
                names.push((name, found));
            };
            if let Some(pattern) = &message.value {
                add(message.id.name.to_owned(), pattern);
            }
            for attribute in &message.attributes {
                add(format!("{}.{}", message.id.name, attribute.id.name), &attribute.value);
            }
        }
    }
    names
}

fn variables(pattern: &fluent_syntax::ast::Pattern<&str>, found: &mut Vec<String>) {
    use fluent_syntax::ast::{Expression, InlineExpression};
    fn inline(expression: &InlineExpression<&str>, found: &mut Vec<String>) {
        match expression {
            InlineExpression::VariableReference { id } => found.push(id.name.to_owned()),
            InlineExpression::Placeable { expression } => any(expression, found),
            _ => {}
        }
    }
    fn any(expression: &Expression<&str>, found: &mut Vec<String>) {
        match expression {
            Expression::Inline(one) => inline(one, found),
            Expression::Select { selector, variants } => {
                inline(selector, found);
                for variant in variants {
                    variables(&variant.value, found);
                }
            }
        }
    }
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            any(expression, found);
        }
    }
}

/// The line at the head of a file that no native speaker has checked.
const UNCHECKED: &str = "### unchecked";

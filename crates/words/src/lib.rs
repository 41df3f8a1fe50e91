//! What people read and hear, in their own language: one catalogue, embedded.
//!
//! In: what is to be said (a row of a list, or a message by its name) and what stands in it. Out: text in a [`Lang`].
//! Not here: which sentence is right now (`job`), where it stands (`view`, the front ends), amounts as text (`units`).
//!
//! A language is one file, `lang/CODE.ftl`, in the open Fluent format. A message is named by what it says; a row of a
//! list that `units::words!` made is `List-word`, a second sentence of the row an attribute. English of the lists is the
//! table itself, since logs, JSON and the schema say it too; `lang/en-lists.ftl` is written from the tables, for
//! translators. What a language lacks is said in English; a test holds that none lacks anything.
//!
//! ```
//! use words::{Lang, args};
//!
//! assert_eq!(Lang::De.text("word-go"), "jetzt");
//! assert_eq!(Lang::from_tag("pt-BR"), Some(Lang::Pt));
//! assert_eq!(Lang::En.with("still-open", &args!(what = "exhaust hose")), "Still to do: exhaust hose.");
//! ```

mod catalogue;
mod lang;
mod number;
mod speech;

pub use catalogue::{Fact, message_names, value};
pub use lang::{Lang, UnknownLang};
pub use speech::Speech;

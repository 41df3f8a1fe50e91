//! How one person is spoken to: a language and the units that are read.

use std::borrow::Cow;

use units::text::{
    UnitSystem, show_celsius, show_kelvins, show_millilitres, show_millimetres, show_newton_metres,
};
use units::{Celsius, Kelvins, Listed, Millilitres, Millimetres, NewtonMetres};

use crate::{Fact, Lang};

/// A language and units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Speech {
    /// In which language.
    pub lang: Lang,
    /// In which units.
    pub units: UnitSystem,
}

impl Speech {
    /// English, in these units.
    pub const fn english(units: UnitSystem) -> Self {
        Self { lang: Lang::En, units }
    }

    /// A message without variables.
    pub fn text(self, name: &'static str) -> &'static str {
        self.lang.text(name)
    }

    /// A message with what stands in it.
    pub fn with(self, name: &'static str, facts: &[Fact<'_>]) -> String {
        self.lang.with(name, facts)
    }

    /// The sentence of a row of a list.
    pub fn of<L: Listed>(self, row: L) -> &'static str {
        self.lang.of(row)
    }

    /// A sentence on which somebody's safety hangs: with its English, until a native speaker has checked the language.
    pub fn caution<L: Listed>(self, row: L) -> Cow<'static, str> {
        let own = self.of(row);
        match self.lang.is_checked() {
            true => Cow::Borrowed(own),
            false => Cow::Owned(format!("{own} / {}", row.as_sentence())),
        }
    }

    /// A temperature: `38,5 °C`.
    pub fn celsius(self, value: Celsius) -> String {
        self.lang.number(&show_celsius(value, self.units)).into_owned()
    }

    /// A difference of temperatures.
    pub fn kelvins(self, value: Kelvins) -> String {
        self.lang.number(&show_kelvins(value, self.units)).into_owned()
    }

    /// An amount: `2,90 L`.
    pub fn millilitres(self, value: Millilitres) -> String {
        self.lang.number(&show_millilitres(value, self.units)).into_owned()
    }

    /// An amount with its sign: `+44 mL`.
    pub fn signed(self, value: Millilitres) -> String {
        let sign = if value.steps() > 0 { "+" } else { "" };
        format!("{sign}{}", self.millilitres(value))
    }

    /// A length.
    pub fn millimetres(self, value: Millimetres) -> String {
        self.lang.number(&show_millimetres(value, self.units)).into_owned()
    }

    /// A torque.
    pub fn newton_metres(self, value: NewtonMetres) -> String {
        self.lang.number(&show_newton_metres(value, self.units)).into_owned()
    }
}

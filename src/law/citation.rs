//! Where a row of law is written, and how it is known.

use crate::matter::Known;
use std::borrow::Cow;
use std::fmt;

/// What a row of law rests on. Rows known from memory say so wherever they are shown.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Citation {
    /// The instrument: `Directive 2000/36/EC`.
    pub instrument: Cow<'static, str>,
    /// The place in it: `Annex I.A.3(a)`.
    pub section: Cow<'static, str>,
    /// The date of the version that was read, `2014-02-19`, where it is known.
    pub version: Option<Cow<'static, str>>,
    /// How it is known here.
    pub known: Known,
    /// Where it was read, empty where it was recalled.
    pub address: Cow<'static, str>,
}

impl Citation {
    /// A section of an instrument, as it is known here.
    #[must_use]
    pub const fn of(instrument: &'static str, section: &'static str, known: Known) -> Self {
        Self { instrument: Cow::Borrowed(instrument), section: Cow::Borrowed(section), version: None, known, address: Cow::Borrowed("") }
    }

    /// The same, read at an address.
    pub(super) const fn read(instrument: &'static str, section: &'static str, known: Known, address: &'static str) -> Self {
        let (instrument, section) = (Cow::Borrowed(instrument), Cow::Borrowed(section));
        Self { instrument, section, version: None, known, address: Cow::Borrowed(address) }
    }

    /// As it stood on a date.
    #[must_use]
    pub fn with_version(self, date: &'static str) -> Self {
        Self { version: Some(Cow::Borrowed(date)), ..self }
    }

    /// Read at an address.
    #[must_use]
    pub fn with_address(self, address: &'static str) -> Self {
        Self { address: Cow::Borrowed(address), ..self }
    }
}

impl fmt::Display for Citation {
    /// `Directive 2000/36/EC, Annex I.A.3(a), version of 2013-11-18 (partly recalled)`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.instrument)?;
        if !self.section.is_empty() {
            write!(f, ", {}", self.section)?;
        }
        if let Some(version) = &self.version {
            write!(f, ", version of {version}")?;
        }
        f.write_str(self.known.remark())
    }
}

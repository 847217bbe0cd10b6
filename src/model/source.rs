//! Where a figure comes from. Every number that reaches the user can say so.

use std::borrow::Cow;

/// How sure a figure is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mark {
    /// Measured by the builder on his own part.
    Measured,
    /// Given in the bay file (`stock`).
    BayFile,
    /// Read in a named public document.
    Published,
    /// Follows by calculation.
    Calculated,
    /// Read in a named public document, of something else that stands in.
    StandIn,
    /// From memory of a named standard; check it.
    Memory,
    /// Common practice, no primary source.
    Practice,
    /// A typical proportion, no source: measure yours.
    Typical,
}

impl Mark {
    /// Whether a figure so marked is to be checked before a narrow miss of it counts.
    pub fn is_doubtful(self) -> bool {
        matches!(self, Self::Memory | Self::Typical)
    }

    /// The word shown beside a figure.
    pub fn word(self) -> &'static str {
        match self {
            Self::Measured => "measured",
            Self::BayFile => "from the bay file",
            Self::Published => "published",
            Self::Calculated => "calculated",
            Self::StandIn => "published figures of a stand-in",
            Self::Memory => "from memory of the standard",
            Self::Practice => "common practice",
            Self::Typical => "typical, measure yours",
        }
    }
}

/// A mark and the words that name the place: document and table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// How sure it is.
    pub mark: Mark,
    /// The document, table or place; may be empty where the mark says it all.
    pub text: Cow<'static, str>,
}

impl Source {
    /// A source known when the program was built.
    pub const fn fixed(mark: Mark, text: &'static str) -> Self {
        Self { mark, text: Cow::Borrowed(text) }
    }

    /// What its builder measured on a day; the day may be empty.
    pub fn measured_on(day: &str) -> Self {
        Self::put_together(Mark::Measured, day.trim().to_owned())
    }

    /// The word shown beside a figure, with the day where it was measured on one.
    pub fn word(&self) -> Cow<'static, str> {
        match self.mark {
            Mark::Measured if !self.text.is_empty() => {
                Cow::Owned(format!("measured {}", self.text))
            }
            mark => Cow::Borrowed(mark.word()),
        }
    }

    /// A source that is put together at run time, such as a place in the bay file.
    pub fn put_together(mark: Mark, text: String) -> Self {
        Self { mark, text: Cow::Owned(text) }
    }
}

impl std::fmt::Display for Source {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if self.text.is_empty() || self.mark == Mark::Measured {
            f.write_str(&self.word())
        } else {
            write!(f, "{} ({})", self.text, self.mark.word())
        }
    }
}

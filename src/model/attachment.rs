//! How an end holds its hose.

use super::{Construction, EndKind};

/// How an end is fastened to its hose.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Attachment {
    /// Socket and nipple, screwed together over the hose.
    #[default]
    ScrewOn,
    /// A barb that the hose is pushed on to.
    PushOn,
    /// A ferrule pressed on by a set of dies.
    Crimped,
    /// A ferrule drawn through a die.
    Swaged,
}

impl Attachment {
    /// All, with the word of the bay file.
    pub const ALL: [(Self, &'static str); 4] = [
        (Self::ScrewOn, "screw-on"),
        (Self::PushOn, "push-on"),
        (Self::Crimped, "crimped"),
        (Self::Swaged, "swaged"),
    ];

    /// Its word, in the bay file and to be read.
    pub fn word(self) -> &'static str {
        match self {
            Self::ScrewOn => "screw-on",
            Self::PushOn => "push-on",
            Self::Crimped => "crimped",
            Self::Swaged => "swaged",
        }
    }

    /// How an end holds a hose of this construction: as the end says; where it says nothing, or no end is
    /// named, push-on hose takes push-on ends and any other is screwed on.
    pub fn of(end: Option<&EndKind>, hose: &Construction) -> Self {
        let is_push_on = end.and_then(|end| end.for_construction.as_ref()).unwrap_or(hose)
            == &Construction::PushOn;
        let fits = if is_push_on { Self::PushOn } else { Self::ScrewOn };
        end.and_then(|end| end.attachment).unwrap_or(fits)
    }

    /// Whether it takes a press and the manufacturer's dies: not to be made on a bench with two wrenches.
    pub fn takes_a_press(self) -> bool {
        matches!(self, Self::Crimped | Self::Swaged)
    }
}

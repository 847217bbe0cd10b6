//! A figure that may not be there, and a figure against its limit.

use glam::DVec3;

/// A figure, or why there is none.
#[derive(Debug, Clone, PartialEq)]
pub enum Found<T> {
    /// This.
    Known(T),
    /// There is none: nothing bends, there is no obstacle.
    Nothing,
    /// There is one, but it is not known; why.
    NotKnown(&'static str),
}

impl<T> Found<T> {
    /// The figure, where it is known.
    pub fn known(&self) -> Option<&T> {
        match self {
            Self::Known(value) => Some(value),
            Self::Nothing | Self::NotKnown(_) => None,
        }
    }

    /// Whether there is one that is not known.
    pub fn is_not_known(&self) -> bool {
        matches!(self, Self::NotKnown(_))
    }

    pub(super) fn from_option(value: Option<T>) -> Self {
        value.map_or(Self::Nothing, Self::Known)
    }

    pub(super) fn map<U>(self, change: impl FnOnce(T) -> U) -> Found<U> {
        match self {
            Self::Known(value) => Found::Known(change(value)),
            Self::Nothing => Found::Nothing,
            Self::NotKnown(why) => Found::NotKnown(why),
        }
    }
}

/// A length against its limit, and where.
#[derive(Debug, Clone, PartialEq)]
pub struct Against {
    /// The radius or the gap; a gap is negative where hose and obstacle cut into each other.
    pub mm: f64,
    /// What it is to be at least.
    pub limit_mm: f64,
    /// Along the cut hose, from cut end A.
    pub from_a_mm: f64,
    /// In the bay.
    pub point: DVec3,
    /// The obstacle, by its place in the bay; none for a radius.
    pub obstacle: Option<usize>,
    /// The position, where it is not the one as drawn.
    pub position: Option<String>,
}

impl Against {
    /// What is left beyond the limit; negative where it is not kept.
    pub fn spare_mm(&self) -> f64 {
        self.mm - self.limit_mm
    }

    /// The share of the limit; 1 where that is nothing.
    pub fn share(&self) -> f64 {
        if self.limit_mm > 0.0 { self.mm / self.limit_mm } else { 1.0 }
    }
}

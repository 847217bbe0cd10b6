//! Answers to the questions that stand over the window, and other small choices.

use crate::app::settings::Look;

/// A key typed while something is held.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TypedKey {
    /// Text for the coordinate being typed.
    Text(String),
    /// Takes back the last character.
    Back,
    /// Goes on to the other coordinate.
    Next,
    /// Lets go here.
    Done,
}

/// What the list beside the views shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Listed {
    /// The hoses of the routing.
    #[default]
    Hoses,
    /// Every finding of it.
    Findings,
}

/// What to do with the file that was changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SaveOver {
    /// Save over it.
    Replace,
    /// Save to another file.
    Elsewhere,
    /// Do not save now.
    Cancel,
}

/// What to do with unsaved work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Answer {
    /// Save it, then go on.
    Save,
    /// Go on without.
    Discard,
    /// Stay here.
    Cancel,
}

/// What was decided about a copy that a dead window left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Decision {
    /// Go on with it.
    Recover,
    /// It is not wanted.
    ThrowAway,
    /// Ask again another time.
    Later,
}

/// How the window looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names say it")]
pub enum Appearance {
    Look(Look),
    HighContrast(bool),
    TextPercent(u32),
}

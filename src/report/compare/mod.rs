//! Routings side by side: the finished comparison, everything decided and put in words. Formats write it
//! down and decide nothing.
//!
//! A figure that is not known is said to be so, and nothing is claimed from it; of sums with parts that
//! are not known only what holds whatever these are.

mod all;
mod aspect;
mod basis;
mod build;
mod judge;
mod names;
mod page;
mod row;
mod rows;
mod runs;
mod sentence;
mod takes;
mod words;

pub use runs::{RunCell, RunRow};

use crate::drawing::Drawing;
use crate::report::sheet::SheetInfo;
use crate::units::LengthUnit;

/// Two or more routings of a bay, side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Title of the bay.
    pub title: String,
    /// Day and file name.
    pub info: SheetInfo,
    /// The unit that the bay shows.
    pub unit: LengthUnit,
    /// What is compared, in order.
    pub routings: Vec<Column>,
    /// The trade-off in one sentence.
    pub sentence: String,
    /// The figures, what concerns safety first.
    pub rows: Vec<Row>,
    /// Hose by hose, matched by id, in the order of the routings.
    pub runs: Vec<RunRow>,
    /// The routings on the same views.
    pub views: Drawing,
    /// How the lines of each routing look in [`Self::views`].
    pub legend: Vec<Drawing>,
    /// What is not compared, and how the figures are meant.
    pub remarks: Vec<String>,
}

/// One routing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// Its letter, by its place in the bay.
    pub letter: char,
    /// Its id.
    pub id: String,
    /// Its name; its id where it has none.
    pub name: String,
    /// What the sentence calls it.
    pub short: String,
}

/// One figure of all routings.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its name for machines.
    pub id: String,
    /// Its name.
    pub label: String,
    /// Whether it says of what the row above is made.
    pub is_detail: bool,
    /// Unit of the values; empty for counts and money.
    pub unit: &'static str,
    /// One for each routing.
    pub cells: Vec<Cell>,
}

impl Row {
    /// Whether all routings show the same.
    pub fn is_same(&self) -> bool {
        self.cells
            .windows(2)
            .all(|pair| (&pair[0].text, &pair[0].detail) == (&pair[1].text, &pair[1].detail))
    }
}

/// One figure of one routing.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cell {
    /// Exact; none where there is none or it is not known.
    pub value: Option<f64>,
    /// What it is to be at least.
    pub limit: Option<f64>,
    /// As it is read.
    pub text: String,
    /// Where, or what is not known; may be empty.
    pub detail: String,
    /// Id of the hose that it is about.
    pub run: Option<String>,
    /// What is not known of a sum.
    pub missing: Vec<String>,
    /// What is better about it, in a word; empty where nothing is to be told.
    pub word: &'static str,
    /// Whether there is a figure that is not known, or not all of it.
    pub is_unknown: bool,
}

impl Cell {
    /// Whether its word says that it is better than another.
    pub fn is_better(&self) -> bool {
        !self.word.is_empty() && ![judge::SAME, judge::ENOUGH].contains(&self.word)
    }
}

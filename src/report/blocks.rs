//! Finished pages as typed blocks: what stands where, in which order, in which words. Exporters render every
//! kind of block in one way and decide nothing.
#![allow(missing_docs, reason = "the names say it")]

use super::sheet::SheetInfo;
use crate::drawing::Drawing;

/// Everything that is printed as one.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    pub title: String,
    /// Title of the bay, at the left of every page's head.
    pub bay: String,
    /// In the middle of every page's head.
    pub routing: String,
    pub info: SheetInfo,
    pub sections: Vec<Section>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// At the right of the head of its pages.
    pub about: String,
    /// Its entry in the list of contents.
    pub bookmark: Option<String>,
    /// The hose that begins here, for links to it.
    pub hose: Option<usize>,
    /// Whether it begins a page; else it goes on below the section before it.
    pub starts_page: bool,
    pub blocks: Vec<Block>,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    Title {
        text: String,
        lead: Words,
    },
    /// The same of one hose.
    Name {
        text: String,
        lead: Words,
    },
    /// Stays with what follows it, and stands again where that runs on to another page.
    Heading {
        text: String,
        note: String,
    },
    Paragraph(Words),
    /// Words in a frame: what stops, or what the whole comes to.
    Boxed {
        is_heavy: bool,
        head: String,
        lines: Vec<Words>,
    },
    /// The largest figure of the page, and the same in the other unit.
    Hero {
        caption: String,
        figure: String,
        other: String,
    },
    Facts(Vec<Fact>),
    Table(Table),
    Figure {
        caption: String,
        note: String,
        /// The same picture from large to small: the largest is taken that its page has room for.
        pictures: Vec<Drawing>,
    },
    /// A line of a picture and what it stands for.
    Legend(Vec<(Drawing, Words)>),
    /// Boxes to tick, in two columns.
    Steps(Vec<String>),
    List(Vec<Words>),
    Cautions(Vec<Fact>),
    Findings(Vec<Finding>),
    /// Lines to write on.
    Blanks(Vec<String>),
    /// Small print in two columns.
    Columns(Vec<Words>),
    /// Beside each other, each with its share of the width.
    Beside(Vec<(f64, Vec<Block>)>),
}

/// A label and what stands beside it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Fact {
    pub label: String,
    pub value: String,
    /// A word more; may be empty.
    pub remark: String,
    /// Where it comes from; may be empty.
    pub source: String,
}

impl Fact {
    pub(super) fn new(label: &str, value: impl Into<String>, remark: impl Into<String>) -> Self {
        let (value, remark) = (value.into(), remark.into());
        Self { label: label.to_owned(), value, remark, source: String::new() }
    }

    pub(super) fn from(self, source: impl Into<String>) -> Self {
        Self { source: source.into(), ..self }
    }

    /// Remark and source together.
    pub fn remark_and_source(&self) -> String {
        let both = [&self.remark, &self.source].into_iter().filter(|words| !words.is_empty());
        both.map(String::as_str).collect::<Vec<_>>().join("; ")
    }
}

/// What was found, with what follows from it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// Fault, warning or note.
    pub mark: Span,
    pub words: Words,
    pub follows: Vec<Words>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    pub columns: Vec<Column>,
    /// Empty: no head.
    pub head: Vec<Words>,
    pub rows: Vec<Row>,
    /// Small type, for what is looked up.
    pub is_dense: bool,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    /// Of the width, against those of the others.
    pub share: f64,
    pub is_right: bool,
}

impl Column {
    /// Of these shares; those at these places have their words against the right.
    pub(crate) fn all(shares: &[f64], right: &[usize]) -> Vec<Self> {
        let column = |(place, share): (usize, &f64)| Self {
            share: *share,
            is_right: right.contains(&place),
        };
        shares.iter().enumerate().map(column).collect()
    }
}

#[derive(Debug, Clone, PartialEq, Default)]
pub struct Row {
    pub kind: RowKind,
    pub cells: Vec<Cell>,
    /// The hose whose page a click leads to.
    pub hose: Option<usize>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum RowKind {
    #[default]
    Plain,
    /// Its first cell stands over the whole width, above the rows that it names.
    Group,
    /// What goes on under the row before it, set in.
    Detail,
    /// Its cell stands from the second column on, below the row before it.
    Below,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Paragraphs.
    Words(Vec<Words>),
    /// A box to tick.
    Tick,
}

impl Cell {
    pub(crate) fn one(words: Words) -> Self {
        Self::Words(vec![words])
    }
}

/// Words in more than one tone.
pub type Words = Vec<Span>;

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Span {
    pub text: String,
    pub tone: Tone,
}

/// How words stand out; an exporter knows size and colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    Plain,
    Strong,
    /// Stands back: remarks.
    Soft,
    /// Names a figure.
    Label,
    /// A figure to be read from afar.
    Large,
    /// In a frame.
    Framed,
    /// Light on dark.
    Dark,
}

impl Tone {
    pub(super) fn of(self, text: impl Into<String>) -> Span {
        Span { text: text.into(), tone: self }
    }
}

pub(crate) fn plain(text: impl Into<String>) -> Words {
    vec![Tone::Plain.of(text)]
}

pub(crate) fn strong(text: impl Into<String>) -> Words {
    vec![Tone::Strong.of(text)]
}

pub(crate) fn soft(text: impl Into<String>) -> Words {
    vec![Tone::Soft.of(text)]
}

pub(crate) fn label(text: impl Into<String>) -> Words {
    vec![Tone::Label.of(text)]
}

/// A figure with a remark behind it.
pub(crate) fn figure(value: &str, remark: &str) -> Words {
    if remark.is_empty() {
        return strong(value);
    }
    vec![Tone::Strong.of(value), Tone::Soft.of(format!(" {remark}"))]
}

pub(crate) fn heading(text: &str, note: &str) -> Block {
    Block::Heading { text: text.to_owned(), note: note.to_owned() }
}

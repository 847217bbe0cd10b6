//! One row of the table.

use std::cmp::Ordering;

use super::all::{All, One};
use super::aspect::Aspect;
use super::judge::{Words, judge};
use super::{Cell, Row};

/// A row with a word where the order tells one.
pub(super) fn judged(
    all: &All<'_>,
    (id, label, unit): (&str, &str, &'static str),
    words: Words,
    cells: Vec<Cell>,
    order: impl Fn(usize, usize) -> Option<Ordering>,
) -> Row {
    // What reads the same is told the same.
    let reads_same = |a: usize, b: usize| {
        let (a, b) = (&cells[a], &cells[b]);
        a.text == b.text && !a.is_unknown && !b.is_unknown
    };
    let order = |a: usize, b: usize| {
        order(a, b).map(|told| if reads_same(a, b) { Ordering::Equal } else { told })
    };
    let told = judge(all.routings.len(), order, words);
    let cells = cells.into_iter().zip(told).map(|(cell, word)| Cell { word, ..cell });
    Row {
        id: id.to_owned(),
        label: label.to_owned(),
        is_detail: false,
        unit,
        cells: cells.collect(),
    }
}

pub(super) fn by_aspect(
    all: &All<'_>,
    names: (&str, &str, &'static str),
    words: Words,
    aspect: Aspect,
    cells: Vec<Cell>,
) -> Row {
    judged(all, names, words, cells, |one, other| all.order(aspect, one, other))
}

pub(super) fn cells(all: &All<'_>, cell: impl Fn(usize, &One<'_>) -> Cell) -> Vec<Cell> {
    all.routings.iter().enumerate().map(|(place, one)| cell(place, one)).collect()
}

/// A figure that is not judged.
pub(super) fn plain(
    all: &All<'_>,
    id: &str,
    label: &str,
    unit: &'static str,
    value: impl Fn(&One<'_>) -> f64,
) -> Row {
    let cells = cells(all, |_, one| counted(value(one)));
    Row { id: id.to_owned(), label: label.to_owned(), is_detail: false, unit, cells }
}

pub(super) fn counted(value: f64) -> Cell {
    Cell { value: Some(value), text: value.to_string(), ..Cell::default() }
}

//! The comparison as a page: the sentence, the routings on the same views, the figures, the hoses one by one.

use super::{Cell as Figure, Comparison, Row as Figures, RunCell, RunRow};
use crate::report::blocks::{
    Block, Cell, Column, Document, Row, RowKind, Section, Table, Tone, Words, heading, label,
    plain, soft, strong,
};
use crate::report::captions;

impl Comparison {
    /// The pages to print.
    pub fn document(&self) -> Document {
        let legend = self.routings.iter().zip(&self.legend).map(|(one, line)| {
            let name = format!(" {}, {}", one.name, line.title);
            (line.clone(), vec![Tone::Strong.of(one.letter), Tone::Plain.of(name)])
        });
        let views = Block::Figure {
            caption: String::new(),
            note: String::new(),
            pictures: vec![self.views.clone()],
        };
        let blocks = vec![
            Block::Title { text: captions::COMPARE.to_owned(), lead: Words::new() },
            Block::Boxed {
                is_heavy: false,
                head: String::new(),
                lines: vec![plain(&self.sentence)],
            },
            Block::Legend(legend.collect()),
            views,
            Block::Table(self.table(self.rows.iter().map(figures).collect())),
            heading(captions::COMPARE_RUNS, ""),
            Block::Table(self.table((1..).zip(&self.runs).flat_map(run).collect())),
            heading(captions::COMPARE_READ, ""),
            Block::Columns(self.remarks.iter().map(plain).collect()),
        ];
        let letters: Vec<String> = self.routings.iter().map(|one| one.letter.to_string()).collect();
        Document {
            title: format!("{}: {}", self.title, captions::COMPARE.to_lowercase()),
            bay: self.title.clone(),
            routing: format!("routings {}", letters.join(", ")),
            info: self.info.clone(),
            sections: vec![Section {
                about: captions::COMPARE.to_owned(),
                bookmark: Some(captions::COMPARE.to_owned()),
                hose: None,
                starts_page: true,
                blocks,
            }],
        }
    }

    /// A column for the names, one for each routing.
    fn table(&self, rows: Vec<Row>) -> Table {
        let each = 3.4 / self.routings.len().max(1) as f64;
        let shares: Vec<f64> =
            std::iter::once(1.0).chain(self.routings.iter().map(|_| each)).collect();
        let heads = self.routings.iter().map(|one| {
            vec![Tone::Strong.of(one.letter), Tone::Plain.of(format!(" {}", one.short))]
        });
        Table {
            columns: Column::all(&shares, &[]),
            head: std::iter::once(Words::new()).chain(heads).collect(),
            rows,
            is_dense: false,
        }
    }
}

fn figures(row: &Figures) -> Row {
    let (kind, name) = if row.is_detail {
        (RowKind::Detail, label(&row.label))
    } else {
        (RowKind::Plain, plain(&row.label))
    };
    let cells = std::iter::once(Cell::one(name)).chain(row.cells.iter().map(figure)).collect();
    Row { kind, cells, hose: None }
}

/// A figure, what is better about it, and where.
fn figure(cell: &Figure) -> Cell {
    let mut words = strong(&cell.text);
    if !cell.word.is_empty() {
        let tone = if cell.is_better() { Tone::Framed } else { Tone::Soft };
        words.extend([Tone::Plain.of(" "), tone.of(cell.word)]);
    }
    let detail = (!cell.detail.is_empty()).then(|| soft(&cell.detail));
    Cell::Words(std::iter::once(words).chain(detail).collect())
}

/// A hose in every routing, and below that what is different.
fn run((number, run): (usize, &RunRow)) -> [Row; 2] {
    let name = Cell::one(strong(format!("{number} {}", run.name)));
    let cells = run.cells.iter().map(|cell| match cell {
        Some(cell) => run_cell(cell),
        None => Cell::one(soft("none")),
    });
    let differences = Cell::one(plain(run.differences_in_words()));
    [
        Row { cells: std::iter::once(name).chain(cells).collect(), ..Row::default() },
        Row { kind: RowKind::Below, cells: vec![differences], hose: None },
    ]
}

fn run_cell(cell: &RunCell) -> Cell {
    let mut words = strong(&cell.cut);
    let faults = cell.faults_in_words();
    if !faults.is_empty() {
        words.extend([Tone::Plain.of(" "), Tone::Dark.of(faults)]);
    }
    Cell::Words(vec![words, soft(cell.details_in_words())])
}

//! Routings side by side on paper: the sentence, the routings on the same views, the figures, the
//! hoses one by one.

use glam::DVec2;

use super::PdfError;
use super::block::{Block, rect, rule};
use super::document::document;
use super::face::Faces;
use super::flow::{Flow, WIDTH};
use super::paper::Paper;
use super::running::Running;
use super::table::heading;
use super::text::{Span, Style, aligned, paragraph};
use crate::drawing::{Anchor, Dash, Shade, Stroke};
use crate::report::captions;
use crate::report::compare::{Cell, Comparison, Row, RunCell, RunRow};

/// Width of the names of the figures.
const LABEL: f64 = 41.0;
/// Between columns.
const APART: f64 = 3.0;
const PAD: f64 = 0.7;

/// The whole comparison; the same one gives the same bytes.
pub(in crate::export) fn compare(
    comparison: &Comparison,
    paper: Paper,
) -> Result<Vec<u8>, PdfError> {
    let faces = Faces::new()?;
    let mut flow = Flow::new(paper);
    flow.page(captions::COMPARE.to_owned()).bookmark = Some(captions::COMPARE.to_owned());
    let columns = Columns { faces: &faces, comparison };
    flow.put(paragraph(&faces, &[Span(captions::COMPARE, Style::TITLE.sized(18.0))], WIDTH));
    flow.gap(1.0);
    flow.put(sentence(&faces, &comparison.sentence));
    flow.gap(2.5);
    flow.put(legend(&faces, comparison));
    flow.put(Block::drawing(&comparison.views));
    flow.gap(3.0);
    let rows = comparison.rows.iter().map(|row| columns.figure(row));
    flow.list(&columns.head(""), rows);
    flow.gap(5.0);
    let rows = (1..).zip(&comparison.runs).map(|(number, run)| columns.run(number, run));
    flow.list(&columns.head(captions::COMPARE_RUNS), rows);
    flow.gap(4.0);
    let remarks = comparison.remarks.iter().map(|remark| remark_row(&faces, remark));
    flow.list(&heading(&faces, captions::COMPARE_READ, "", WIDTH), remarks);
    let letters: Vec<String> =
        comparison.routings.iter().map(|one| one.letter.to_string()).collect();
    let routing = format!("routings {}", letters.join(", "));
    let (title, info) = (&comparison.title, &comparison.info);
    let running = Running { faces: &faces, paper, title, routing: &routing, info };
    let title = format!("{title}: {}", captions::COMPARE.to_lowercase());
    document(&faces, paper, title, &running.pages(&flow.pages))
}

fn sentence(faces: &Faces, words: &str) -> Block {
    const PAD: DVec2 = DVec2::new(3.0, 1.8);
    let style = Style::GROUP.sized(11.0);
    paragraph(faces, &[Span(words, style)], WIDTH - 2.0 * PAD.x).framed(WIDTH, PAD, 0.5)
}

/// How the lines of each routing look.
fn legend(faces: &Faces, comparison: &Comparison) -> Block {
    let lines = comparison.routings.iter().zip(&comparison.legend).map(|(one, line)| {
        let x = line.width_mm + 2.0;
        let letter = format!("{} ", one.letter);
        let name = format!("{}, {}", one.name, line.title);
        let (strong, plain) = (Style::STRONG.sized(9.0), Style::GROUP.sized(9.0));
        let words = paragraph(faces, &[Span(&letter, strong), Span(&name, plain)], WIDTH - x);
        let mut row = Block::default();
        row.put(Block::drawing(line), DVec2::new(0.0, 0.6));
        row.put(words, DVec2::new(x, 0.0));
        row
    });
    let mut legend = Block::stacked(lines);
    legend.height += 1.2;
    legend
}

fn remark_row(faces: &Faces, remark: &str) -> Block {
    let mut block = paragraph(faces, &[Span(remark, Style::SOFT.shaded(Shade::Ink))], WIDTH);
    block.height += 0.7;
    block
}

/// A table with a column for each routing.
struct Columns<'a> {
    faces: &'a Faces,
    comparison: &'a Comparison,
}

impl Columns<'_> {
    fn width(&self) -> f64 {
        let count = self.comparison.routings.len().max(1) as f64;
        (WIDTH - LABEL) / count - APART
    }

    fn at(&self, column: usize) -> DVec2 {
        DVec2::new(LABEL + (self.width() + APART) * column as f64, PAD)
    }

    /// The label at the left and a block for each routing.
    fn row(&self, label: Block, cells: impl Iterator<Item = Block>) -> Block {
        let mut row = Block::default();
        row.put(label, DVec2::new(0.0, PAD));
        for (column, cell) in cells.enumerate() {
            row.put(cell, self.at(column));
        }
        row.height += PAD;
        row
    }

    fn head(&self, label: &str) -> Block {
        let style = Style::GROUP.sized(9.4);
        let label = paragraph(self.faces, &[Span(label, Style::HEADING)], LABEL - APART);
        let cells = self.comparison.routings.iter().map(|one| {
            let letter = format!("{} ", one.letter);
            let strong = Style::STRONG.sized(9.4);
            let spans = [Span(&letter, strong), Span(&one.short, style)];
            paragraph(self.faces, &spans, self.width())
        });
        let mut row = self.row(label, cells);
        row.items.push(rule(DVec2::new(0.0, row.height), WIDTH, Shade::Ink, 0.4));
        row
    }

    fn figure(&self, row: &Row) -> Block {
        // What goes on under a figure is set in and stands back.
        let is_part = row.label.starts_with(' ');
        let (at, style) = if is_part { (3.0, Style::SOFT.sized(8.0)) } else { (0.0, Style::GROUP) };
        let words = paragraph(self.faces, &[Span(row.label.trim(), style)], LABEL - APART - at);
        let label = Block::default().beside(at, words);
        let mut block = self.row(label, row.cells.iter().map(|cell| self.cell(cell)));
        block.items.push(rule(DVec2::new(0.0, block.height), WIDTH, Shade::Hairline, 0.15));
        block
    }

    fn cell(&self, cell: &Cell) -> Block {
        let word = if cell.is_better() {
            boxed(self.faces, cell.word, Mark::Better)
        } else {
            self.plain(cell.word)
        };
        let detail = paragraph(self.faces, &[Span(&cell.detail, Style::SOFT)], self.width());
        self.with_word(&cell.text, word).below(detail)
    }

    fn plain(&self, word: &str) -> (f64, Block) {
        let style = Style::SOFT;
        let wide = self.faces.of(false).width_mm(word, style.size_mm);
        (wide, paragraph(self.faces, &[Span(word, style)], wide + 1.0))
    }

    /// A figure and a word behind it; below it where the column has no room beside.
    fn with_word(&self, text: &str, (word_wide, word): (f64, Block)) -> Block {
        let style = Style::STRONG;
        let wide = self.faces.of(true).width_mm(text, style.size_mm) + 1.6;
        let figure = paragraph(self.faces, &[Span(text, style)], self.width());
        if word_wide == 0.0 {
            figure
        } else if wide + word_wide <= self.width() {
            figure.beside(wide, word)
        } else {
            figure.below(word)
        }
    }

    /// A hose in every routing, and below that what is different.
    fn run(&self, number: usize, run: &RunRow) -> Block {
        let name = format!("{number} {}", run.name);
        let label = paragraph(self.faces, &[Span(&name, Style::STRONG)], LABEL - APART);
        let cells = run.cells.iter().map(|cell| match cell {
            Some(cell) => self.run_cell(cell),
            None => paragraph(self.faces, &[Span("none", Style::SOFT)], self.width()),
        });
        let differences = run.differences_in_words();
        let spans = [Span(&differences, Style::GROUP.sized(8.0))];
        let told = paragraph(self.faces, &spans, WIDTH - LABEL);
        let mut block = self.row(label, cells).below(Block::default().beside(LABEL, told));
        block.height += PAD;
        block.items.push(rule(DVec2::new(0.0, block.height), WIDTH, Shade::Soft, 0.2));
        block
    }

    fn run_cell(&self, cell: &RunCell) -> Block {
        let faults = cell.faults_in_words();
        let word = if faults.is_empty() {
            (0.0, Block::default())
        } else {
            boxed(self.faces, &faults, Mark::Faults)
        };
        let details = cell.details_in_words();
        let details = paragraph(self.faces, &[Span(&details, Style::SOFT)], self.width());
        self.with_word(&cell.cut, word).below(details)
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Mark {
    Better,
    Faults,
}

/// A word in a box, black for faults, and how wide that is.
fn boxed(faces: &Faces, word: &str, mark: Mark) -> (f64, Block) {
    const SIDE: f64 = 1.2;
    let style = Style::STRONG.sized(7.6);
    let wide = faces.of(true).width_mm(word, style.size_mm) + 2.0 * SIDE;
    let (fill, ink) = match mark {
        Mark::Better => (None, Shade::Ink),
        Mark::Faults => (Some(Shade::Ink), Shade::Paper),
    };
    let words = aligned(faces, &[Span(word, style.shaded(ink))], wide, Anchor::Middle);
    let stroke = Stroke { shade: Shade::Ink, width_mm: 0.3, dash: Dash::Obstacle };
    let size = DVec2::new(wide, words.height);
    let mut block = Block::default();
    block.items.push(rect(DVec2::new(0.0, 0.15), size, fill, Some(stroke)));
    block.put(words, DVec2::new(0.0, 0.15));
    (wide, block)
}

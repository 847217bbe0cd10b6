//! The words of a label: smaller where they are long, then in more lines; never cut off unless the label
//! would not fit on a page.

use super::INNER;
use crate::drawing::Shade;
use crate::export::pdf::block::{Block, rule};
use crate::export::pdf::face::Faces;
use crate::export::pdf::table::blank;
use crate::export::pdf::text::{PT, Span, Style, paragraph};
use crate::report::sheet::{HoseSheet, Sheet, Shown};

use glam::DVec2;

/// Sets the words of one label.
pub(super) struct Words<'a> {
    pub(super) faces: &'a Faces,
    /// More letters than this of one name are left out.
    pub(super) longest: usize,
}

impl Words<'_> {
    /// Words of the program's own and figures: whole, smaller where they are long.
    pub(super) fn whole(&self, words: &str, style: Style) -> Block {
        const SMALLEST: f64 = 6.0 * PT;
        let wide = self.faces.of(style.is_bold).width_mm(words, style.size_mm);
        let fits = style.size_mm * (INNER / wide.max(f64::MIN_POSITIVE)).min(1.0) * 0.999;
        let style = Style { size_mm: fits.max(SMALLEST.min(style.size_mm)), ..style };
        paragraph(self.faces, &[Span(words, style)], INNER)
    }

    /// Words from outside, in as many lines as they take.
    pub(super) fn line(&self, words: &str, style: Style) -> Block {
        paragraph(self.faces, &[Span(&self.limited(words), style)], INNER)
    }

    /// The name, smaller where it is long.
    pub(super) fn name(&self, words: &str) -> Block {
        const LARGE_PT: f64 = 11.0;
        const SMALL_PT: f64 = 8.0;
        let words = self.limited(words);
        let wide = self.faces.of(true).width_mm(&words, PT).max(f64::MIN_POSITIVE);
        let style = Style::STRONG.sized((INNER / wide * 0.999).clamp(SMALL_PT, LARGE_PT));
        let mut block = paragraph(self.faces, &[Span(&words, style)], INNER);
        // As high as a large one: all labels are alike.
        block.height = block.height.max(LARGE_PT * PT * 1.28);
        block
    }

    /// Name, id, size and ports: what both kinds begin with.
    pub(super) fn heading(&self, hose: &HoseSheet) -> Vec<Block> {
        let id = format!("{} · {}", self.limited(&hose.id), self.limited(&hose.size_and_kind));
        let port = |end: &str, name: &str| {
            self.line(&format!("{end} {}", self.limited(name)), Style::SOFT.sized(6.6))
        };
        vec![
            self.name(&hose.name),
            paragraph(self.faces, &[Span(&id, Style::GROUP.sized(7.4))], INNER),
            port("A", &hose.from),
            port("B", &hose.to),
        ]
    }

    /// A length in the bay's unit, large, and in the other one beside it.
    pub(super) fn length(&self, shown: &Shown) -> Block {
        let other = format!("  {}", shown.other);
        let (large, small) = (Style::STRONG.sized(15.0), Style::GROUP.sized(9.0));
        let wide = self.faces.of(true).width_mm(&shown.main, large.size_mm)
            + self.faces.of(false).width_mm(&other, small.size_mm);
        let fits = (INNER / wide.max(f64::MIN_POSITIVE)).min(1.0);
        let scaled = |style: Style| Style { size_mm: style.size_mm * fits, ..style };
        let spans = [Span(&shown.main, scaled(large)), Span(&other, scaled(small))];
        paragraph(self.faces, &spans, INNER)
    }

    /// Words below a thick line: what stops the hose from being cut or used.
    pub(super) fn barred(&self, words: &str) -> Block {
        let mut block = Block::space(0.6);
        block.items.push(rule(DVec2::new(0.0, 0.2), INNER, Shade::Ink, 0.5));
        block.below(self.whole(words, Style::STRONG.sized(7.4)))
    }

    /// What is written down, or a line to write it on: two side by side, or below each other where one is
    /// long.
    pub(super) fn fields(&self, pair: [(&str, &str); 2]) -> Block {
        const HALF: f64 = INNER / 2.0;
        const ROW: f64 = 4.4;
        let [a, b] = pair.map(|field| self.field(field, HALF - 1.5));
        let is_high = |block: &Block| block.height > ROW;
        let mut row = if is_high(&a) || is_high(&b) {
            let [a, b] = pair.map(|field| self.field(field, INNER));
            a.below(Block::space(0.6)).below(b)
        } else {
            a.beside(HALF, b)
        };
        row.height = row.height.max(ROW);
        row
    }

    /// The same alone.
    pub(super) fn only(&self, field: (&str, &str)) -> Block {
        self.field(field, INNER)
    }

    fn field(&self, (label, value): (&str, &str), width: f64) -> Block {
        if value.is_empty() {
            return blank(self.faces, label, width);
        }
        let label = format!("{label} ");
        let value = self.limited(value);
        let spans = [Span(&label, Style::LABEL), Span(&value, Style::STRONG)];
        paragraph(self.faces, &spans, width)
    }

    /// Whose hose it is.
    pub(super) fn owner(&self, sheet: &Sheet) -> Block {
        let owner = format!("{} · {}", self.limited(&sheet.title), self.limited(&sheet.routing));
        paragraph(self.faces, &[Span(&owner, Style::SOFT.sized(6.0))], INNER)
    }

    fn limited(&self, words: &str) -> String {
        let mut letters = words.chars();
        let kept: String = letters.by_ref().take(self.longest).collect();
        if letters.next().is_some() { format!("{kept}…") } else { kept }
    }
}

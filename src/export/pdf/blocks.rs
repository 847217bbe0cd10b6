//! Typed blocks, set for pages: one way for each kind.

use glam::DVec2;

use super::block::{Block, halves, rect, rule};
use super::face::Faces;
use super::flow::Flow;
use super::table::table;
use super::text::{PT, Span, Style, paragraph, spans};
use crate::drawing::{Dash, Drawing, Shade, Stroke};
use crate::report::blocks::{Block as Told, Fact, Finding, Section, Words};

/// Between columns, mm.
const APART: f64 = 5.0;

/// One block, set: its rows may part between pages, below its head on each.
pub(super) struct Set {
    /// Above it, mm.
    gap: f64,
    head: Block,
    rows: Vec<Block>,
    /// Whether the rows go on in a second column before they go on to the next page.
    is_in_two: bool,
}

impl Set {
    fn of(gap: f64, block: Block) -> Self {
        Self { gap, head: Block::default(), rows: vec![block], is_in_two: false }
    }

    fn height(&self) -> f64 {
        if self.is_in_two {
            return self.head.height + in_two(self.rows.clone(), 0.0).height;
        }
        self.head.height + self.rows.iter().map(|row| row.height).sum::<f64>()
    }
}

/// Puts a section onto its pages, and those that go on below it: all on one page if that can be, else the first
/// one, with pictures as large as it then has room for.
pub(super) fn push(flow: &mut Flow, faces: &Faces, sections: &[Section], width: f64) {
    const MOVED: f64 = 45.0;
    let Some((first, below)) = sections.split_first() else { return };
    let page = flow.page(first.about.clone());
    (page.hose, page.bookmark) = (first.hose, first.bookmark.clone());
    let below: Vec<Told> = below.iter().flat_map(|section| section.blocks.clone()).collect();
    let all = [first.blocks.clone(), below.clone()].concat();
    let fits = |blocks: &[Told], size: usize| {
        let sets = Setter { faces, size }.sets(blocks, width);
        let closer = flow.closer(&parts(&sets))?;
        Some((closer, sets))
    };
    let sizes = || 0..=most_sizes(&first.blocks);
    let whole = sizes().find_map(|size| fits(&all, size));
    if let Some((closer, sets)) = whole {
        return put(flow, sets, closer, width);
    }
    // A second page there is: it gets the end of the first one too, so that neither is crowded or nearly empty.
    let smallest = Setter { faces, size: most_sizes(&first.blocks) };
    let height: f64 = smallest.sets(&below, width).iter().map(Set::height).sum();
    let moved = if height > 0.0 && height + MOVED < flow.height() { 2 } else { 0 };
    let (here, moved) = first.blocks.split_at(first.blocks.len().saturating_sub(moved));
    let (closer, sets) = sizes()
        .find_map(|size| fits(here, size))
        .unwrap_or_else(|| (1.0, smallest.sets(here, width)));
    let rest = smallest.sets(&[moved.to_vec(), below].concat(), width);
    put(flow, sets, closer, width);
    if !moved.is_empty() {
        flow.turn();
    }
    put(flow, rest, 1.0, width);
}

fn put(flow: &mut Flow, sets: Vec<Set>, closer: f64, width: f64) {
    for set in sets {
        flow.gap(set.gap * closer);
        if set.is_in_two {
            flow.in_two(set.head, set.rows, f64::midpoint(width, APART));
        } else {
            flow.list_together(&set.head, set.rows);
        }
    }
}

fn parts(sets: &[Set]) -> Vec<(f64, f64)> {
    sets.iter().map(|set| (set.gap, set.height())).collect()
}

/// How many sizes beside the first any picture has.
fn most_sizes(blocks: &[Told]) -> usize {
    let of = |block: &Told| match block {
        Told::Figure { pictures, .. } => pictures.len().saturating_sub(1),
        Told::Beside(columns) => {
            columns.iter().map(|(_, inner)| most_sizes(inner)).max().unwrap_or(0)
        }
        _ => 0,
    };
    blocks.iter().map(of).max().unwrap_or(0)
}

struct Setter<'a> {
    faces: &'a Faces,
    /// Which of the sizes of a picture is taken, from the largest.
    size: usize,
}

impl Setter<'_> {
    /// A heading stays with what follows it.
    fn sets(&self, blocks: &[Told], width: f64) -> Vec<Set> {
        const ABOVE_HEADING: f64 = 3.2;
        let mut held: Option<Block> = None;
        let mut sets = Vec::new();
        for block in blocks {
            if let Told::Heading { text, note } = block {
                held = Some(self.heading(text, note, width));
                continue;
            }
            let mut set = self.set(block, width);
            if let Some(heading) = held.take() {
                set.gap = ABOVE_HEADING;
                set.head = heading.below(set.head);
            }
            sets.push(set);
        }
        sets
    }

    fn stacked(&self, blocks: &[Told], width: f64) -> Block {
        let mut all = Block::default();
        for set in self.sets(blocks, width) {
            let gap = if all.height > 0.0 { set.gap } else { 0.0 };
            all = all.below(Block::space(gap)).below(set.head).below(Block::stacked(set.rows));
        }
        all
    }

    fn set(&self, block: &Told, width: f64) -> Set {
        match block {
            Told::Title { text, lead } => Set::of(0.0, self.title(text, Style::TITLE, lead, width)),
            Told::Name { text, lead } => Set::of(0.0, self.title(text, Style::NAME, lead, width)),
            Told::Heading { text, note } => Set::of(3.2, self.heading(text, note, width)),
            Told::Paragraph(words) => Set::of(1.0, self.words(words, width)),
            Told::Boxed { is_heavy, head, lines } => {
                Set::of(2.5, self.boxed(*is_heavy, head, lines, width))
            }
            Told::Hero { caption, figure, other } => {
                Set::of(2.5, self.hero(caption, figure, other, width))
            }
            Told::Facts(facts) => {
                Set { rows: self.facts(facts, width), ..Set::of(1.0, Block::default()) }
            }
            Told::Table(told) => {
                let (head, rows) = table(self.faces, told, width);
                Set { gap: 2.2, head, rows, is_in_two: false }
            }
            Told::Figure { caption, note, pictures } => {
                Set::of(3.0, self.figure(caption, note, pictures, width))
            }
            Told::Legend(lines) => Set::of(2.5, self.legend(lines, width)),
            Told::Steps(steps) => Set::of(1.0, self.steps(steps, width)),
            Told::List(items) => {
                let rows = items.iter().map(|words| spaced(self.words(words, width), 0.7));
                Set { rows: rows.collect(), ..Set::of(1.0, Block::default()) }
            }
            Told::Cautions(cautions) => Set::of(2.0, self.cautions(cautions, width)),
            Told::Findings(findings) => {
                let rows = findings.iter().map(|finding| self.finding(finding, width)).collect();
                Set { rows, ..Set::of(1.0, Block::default()) }
            }
            Told::Blanks(labels) => Set::of(3.0, self.blanks(labels, width)),
            Told::Columns(items) => {
                let column = (width - APART) / 2.0;
                let items = items
                    .iter()
                    .map(|words| spaced(paragraph(self.faces, &spans(words, true), column), 0.35));
                Set { rows: items.collect(), is_in_two: true, ..Set::of(3.0, Block::default()) }
            }
            Told::Beside(columns) => Set::of(3.0, self.beside(columns, width)),
        }
    }

    fn words(&self, words: &Words, width: f64) -> Block {
        paragraph(self.faces, &spans(words, false), width)
    }

    fn heading(&self, text: &str, note: &str, width: f64) -> Block {
        let note = format!(" {note}");
        let words = [Span(text, Style::HEADING), Span(&note, Style::SOFT)];
        spaced(paragraph(self.faces, &words, width), 0.7)
    }

    fn title(&self, text: &str, style: Style, lead: &Words, width: f64) -> Block {
        let title = paragraph(self.faces, &[Span(text, style)], width);
        title.below(self.words(lead, width))
    }

    /// What stops stands large at the left, why beside it; a lighter frame has its head in the words.
    fn boxed(&self, is_heavy: bool, head: &str, lines: &[Words], width: f64) -> Block {
        const PAD: DVec2 = DVec2::new(3.0, 1.6);
        let (size, line) = if is_heavy { (12.0, 0.9) } else { (9.6, 0.3) };
        let style = Style::STRONG.sized(size);
        let head_width = self.faces.of(true).width_mm(head, style.size_mm);
        let inner = width - 2.0 * PAD.x;
        let heading = paragraph(self.faces, &[Span(head, style)], inner);
        let at = if !head.is_empty() && head_width < 0.45 * inner { head_width + 4.0 } else { 0.0 };
        let told = Block::stacked(lines.iter().map(|words| self.words(words, inner - at)));
        let words = if at > 0.0 {
            let mut beside = heading.clone();
            beside.put(told, DVec2::new(at, if is_heavy { 0.5 } else { 0.2 }));
            beside
        } else {
            heading.below(told)
        };
        words.framed(width, PAD, line)
    }

    /// The figure as large as its column holds, the other unit behind it.
    fn hero(&self, caption: &str, figure: &str, other: &str, width: f64) -> Block {
        const LARGEST: f64 = 40.0;
        const OTHER: f64 = 0.42;
        let other = format!("  {other}");
        let wide = self.faces.of(true).width_mm(figure, PT)
            + self.faces.of(false).width_mm(&other, OTHER * PT);
        let size = (width / wide.max(f64::MIN_POSITIVE) * 0.999).min(LARGEST);
        let words = [
            Span(figure, Style::STRONG.sized(size)),
            Span(&other, Style::GROUP.sized(OTHER * size)),
        ];
        let caption = paragraph(self.faces, &[Span(caption, Style::LABEL)], width);
        caption.below(paragraph(self.faces, &words, width))
    }

    /// A label, then figure and remark.
    fn facts(&self, facts: &[Fact], width: f64) -> Vec<Block> {
        const PAD: f64 = 0.35;
        const SHARE: f64 = 0.38;
        let wide = |fact: &Fact| self.faces.of(false).width_mm(&fact.label, Style::LABEL.size_mm);
        let label = facts.iter().map(wide).fold(0.0, f64::max).min(SHARE * width) + 2.5;
        let row = |fact: &Fact| {
            let remark = format!(" {}", fact.remark_and_source());
            let value = [Span(&fact.value, Style::STRONG), Span(&remark, Style::SOFT)];
            let mut row = Block::default();
            let name = paragraph(self.faces, &[Span(&fact.label, Style::LABEL)], label - 1.5);
            row.put(name, DVec2::new(0.0, PAD));
            row.put(paragraph(self.faces, &value, width - label), DVec2::new(label, PAD));
            row.height += PAD;
            row.items.push(rule(DVec2::new(0.0, row.height), width, Shade::Hairline, 0.15));
            row
        };
        facts.iter().map(row).collect()
    }

    fn figure(&self, caption: &str, note: &str, pictures: &[Drawing], width: f64) -> Block {
        let picture = pictures.get(self.size).or(pictures.last());
        let picture = picture.map(Block::drawing).unwrap_or_default();
        if caption.is_empty() && note.is_empty() {
            return picture;
        }
        self.heading(caption, note, width).below(picture)
    }

    fn legend(&self, lines: &[(Drawing, Words)], width: f64) -> Block {
        let rows = lines.iter().map(|(line, words)| {
            let at = line.width_mm + 2.0;
            let mut row = Block::default();
            row.put(Block::drawing(line), DVec2::new(0.0, 0.6));
            row.put(self.words(words, width - at), DVec2::new(at, 0.0));
            row
        });
        spaced(Block::stacked(rows), 1.2)
    }

    fn steps(&self, steps: &[String], width: f64) -> Block {
        const BOX: f64 = 3.4;
        const TEXT_AT: f64 = 5.4;
        let column = (width - APART) / 2.0;
        let stroke = Stroke { shade: Shade::Ink, width_mm: 0.3, dash: Dash::Obstacle };
        let steps = steps.iter().map(|step| {
            let mut block = Block::default();
            let words = paragraph(self.faces, &[Span(step, Style::GROUP)], column - TEXT_AT);
            block.put(words, DVec2::new(TEXT_AT, 0.0));
            block.items.push(rect(DVec2::new(0.0, 0.3), DVec2::splat(BOX), None, Some(stroke)));
            spaced(block, 0.3)
        });
        in_two(steps.collect(), width)
    }

    fn cautions(&self, cautions: &[Fact], width: f64) -> Block {
        let column = (width - APART) / 2.0;
        let cautions = cautions.iter().map(|caution| {
            let head = format!("{}.", caution.label);
            let (words, source) = (format!(" {}", caution.value), format!(" {}", caution.source));
            let words = [
                Span(&head, Style::STRONG.sized(7.8)),
                Span(&words, Style::GROUP.sized(7.8)),
                Span(&source, Style::SOFT),
            ];
            spaced(paragraph(self.faces, &words, column), 0.6)
        });
        let mut all = Block::space(1.2).below(in_two(cautions.collect(), width));
        all.items.push(rule(DVec2::ZERO, width, Shade::Ink, 0.3));
        all
    }

    fn finding(&self, finding: &Finding, width: f64) -> Block {
        const TEXT_AT: f64 = 17.0;
        const FOLLOWS_AT: f64 = TEXT_AT + 4.0;
        let mark = vec![finding.mark.clone()];
        let mut block = self.words(&mark, TEXT_AT);
        block.put(self.words(&finding.words, width - TEXT_AT), DVec2::new(TEXT_AT, 0.0));
        for words in &finding.follows {
            let mut line = self.words(&vec![], width);
            line.put(
                paragraph(self.faces, &[Span("–", Style::SOFT)], 3.0),
                DVec2::new(TEXT_AT, 0.0),
            );
            line.put(self.words(words, width - FOLLOWS_AT), DVec2::new(FOLLOWS_AT, 0.0));
            block = block.below(line);
        }
        spaced(block, 0.8)
    }

    /// Lines to write on, beside each other.
    fn blanks(&self, labels: &[String], width: f64) -> Block {
        const GAP: f64 = 3.0;
        let each = (width + GAP) / labels.len().max(1) as f64;
        let mut all = Block::default();
        for (i, label) in labels.iter().enumerate() {
            let line = super::table::blank(self.faces, label, each - GAP);
            all.put(line, DVec2::new(each * i as f64, 0.0));
        }
        all
    }

    fn beside(&self, columns: &[(f64, Vec<Told>)], width: f64) -> Block {
        let whole: f64 = columns.iter().map(|(share, _)| share).sum();
        let room = width - APART * columns.len().saturating_sub(1) as f64;
        let mut all = Block::default();
        let mut x = 0.0;
        for (share, blocks) in columns {
            let wide = room * share / whole;
            all.put(self.stacked(blocks, wide), DVec2::new(x, 0.0));
            x += wide + APART;
        }
        all
    }
}

fn spaced(mut block: Block, below: f64) -> Block {
    block.height += below;
    block
}

/// In two columns, the first one read first.
fn in_two(blocks: Vec<Block>, width: f64) -> Block {
    let (left, right) = halves(blocks, f64::INFINITY).0;
    left.beside(f64::midpoint(width, APART), right)
}

//! What stands above and below the drawing on a page of a template.

use glam::DVec2;

use super::scale_bar::ScaleBar;
use super::{FOOT, Place};
use crate::drawing::{Anchor, Item, Shade};
use crate::export::pdf::block::{Block, rule};
use crate::export::pdf::face::Faces;
use crate::export::pdf::text::{Span, Style, aligned, elided, paragraph};
use crate::export::template::Template;
use crate::report::captions;

/// How high the head of every page is, mm.
pub(super) fn height(faces: &Faces, template: &Template, width: f64) -> f64 {
    // Which page it is takes one line, whatever the numbers.
    head(faces, template, "page 1", width).height
}

impl Place<'_> {
    pub(super) fn head(&self, faces: &Faces, width: f64, index: usize) -> Block {
        let place = format!(
            "page {} of {}, row {}, column {}",
            index + 1,
            self.count,
            self.row + 1,
            self.column + 1
        );
        head(faces, self.template, &place, width)
    }

    pub(super) fn foot(&self, faces: &Faces, width: f64) -> Block {
        let mut foot = Block::space(FOOT - 3.0);
        let bar = ScaleBar::of(self.template.unit);
        foot.items.push(bar.item(DVec2::new(0.0, 4.0), DVec2::X, DVec2::NEG_Y));
        let end = DVec2::new(bar.mm() + 1.5, 3.6);
        foot.items.push(Item::text(end, bar.words, 2.8, Anchor::Start));
        let print = captions::template_print(bar.words);
        let spans = [Span(&print, Style::STRONG), Span(captions::TEMPLATE_JOIN, Style::SOFT)];
        foot.put(paragraph(faces, &spans, 128.0), DVec2::new(0.0, 5.2));
        let room = DVec2::new(width - 132.0, FOOT - 3.0);
        foot.put(self.map(faces, room), DVec2::new(132.0, 0.0));
        foot
    }
}

pub(super) fn head(faces: &Faces, template: &Template, place: &str, width: f64) -> Block {
    const RIGHT: f64 = 62.0;
    let left = width - RIGHT;
    let strong = Style::STRONG.sized(10.0);
    let name = elided(faces, &template.name, strong, left - 2.0);
    let mut what = vec![template.title.clone(), format!("routing {}", template.routing)];
    let info = &template.info;
    what.extend([&info.date, &info.file_name].into_iter().flatten().cloned());
    let what = elided(faces, &what.join(" · "), Style::SOFT, left - 2.0);
    let end = |words: &str, style| aligned(faces, &[Span(words, style)], RIGHT, Anchor::End);
    let mut head = aligned(faces, &[Span(&name, strong)], left, Anchor::Start)
        .below(aligned(faces, &[Span(&what, Style::SOFT)], left, Anchor::Start))
        .beside(left, end(captions::TEMPLATE, strong).below(end(place, Style::GROUP)));
    head.items.push(rule(DVec2::new(0.0, head.height + 0.6), width, Shade::Ink, 0.4));
    head.height += 1.2;
    if !template.stop.is_empty() {
        head = head.below(Block::space(0.8)).below(stop(faces, &template.stop, width));
        head.height += 0.8;
    }
    head.below(notes(faces, template, width))
}

/// The same words as above the cut length on the sheet, on every page: a page goes astray alone.
fn stop(faces: &Faces, why: &str, width: f64) -> Block {
    const PAD: DVec2 = DVec2::new(2.0, 0.9);
    const WORDS: f64 = 40.0;
    let word = captions::STOP.to_uppercase();
    let room = width - WORDS - 2.0 * PAD.x;
    paragraph(faces, &[Span(&word, Style::STRONG.sized(10.5))], WORDS)
        .beside(WORDS, paragraph(faces, &[Span(why, Style::GROUP)], room))
        .framed(width, PAD, 0.9)
}

fn notes(faces: &Faces, template: &Template, width: f64) -> Block {
    let view = &template.view;
    let name = elided(faces, &view.name, Style::STRONG, width / 2.0);
    let notes = format!(" {} {}", view.note, template.note);
    let untested = match template.untested.as_str() {
        "" => String::new(),
        words => format!(" Hose {words}."),
    };
    let spans = [
        Span(&name, Style::STRONG.sized(7.6)),
        Span(&notes, Style::SOFT.sized(7.2)),
        Span(&untested, Style::STRONG.sized(7.2)),
    ];
    paragraph(faces, &spans, width)
}

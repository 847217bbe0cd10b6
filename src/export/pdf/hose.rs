//! The first page of a hose: what to cut, what to mark, its ends, its route.

use glam::DVec2;

use super::block::Block;
use super::face::Faces;
use super::flow::{Flow, WIDTH};
use super::table::{Cell, facts, heading, row, told_facts};
use super::text::{PT, Span, Style, aligned, paragraph};
use crate::drawing::{Anchor, Shade};
use crate::report::captions;
use crate::report::sheet::{Clock, EndSheet, HoseSheet, Sheet};

/// Width of what stands beside the facts.
const HERO: f64 = 88.0;
const GAP: f64 = 5.0;

/// What the next page has to tell yet.
pub(super) struct LeftOver {
    /// Where it has no room on this page.
    pub(super) route: Option<Block>,
    /// Whether how it will lie is to be told there.
    pub(super) has_installed: bool,
}

/// The route opens the next page where it has no room on this one.
pub(super) fn push(flow: &mut Flow, faces: &Faces, sheet: &Sheet, hose: &HoseSheet) -> LeftOver {
    let page = flow.page(format!("hose {} of {}: {}", hose.number, sheet.hose_count, hose.name));
    page.hose = Some(hose.number);
    page.bookmark = Some(format!("{} {}: {}", hose.number, hose.name, hose.cut.main));
    let note = captions::mark_note(sheet);
    let strip = heading(faces, captions::MARK, &note, WIDTH).below(Block::drawing(&hose.strip));
    let (route, has_installed) = route(faces, hose);
    let stop = (!hose.stop.is_empty()).then(|| stop(faces, hose));
    // Each with the gap above it.
    let mut blocks = vec![(0.0, name(faces, hose))];
    blocks.extend(stop.map(|stop| (2.5, stop)));
    blocks.extend([(2.5, hero(faces, hose)), (4.0, strip), (3.0, ends_and_clock(faces, hose))]);
    let closer = flow.closer(&blocks, (ROUTE_GAP, route.height));
    for (gap, block) in blocks {
        flow.gap(gap * closer);
        flow.put(block);
    }
    flow.gap(ROUTE_GAP * closer);
    if flow.fits(&route) {
        flow.put(route);
        LeftOver { route: None, has_installed }
    } else {
        LeftOver { route: Some(route), has_installed }
    }
}

/// The route and, where it leaves room at its side, how it will lie; whether that is left to be told.
fn route(faces: &Faces, hose: &HoseSheet) -> (Block, bool) {
    const LEAST: f64 = 84.0;
    const APART: f64 = 6.0;
    const LABEL: f64 = 31.0;
    // It may come lower than the picture by this much.
    const LOWER: f64 = 6.0;
    let picture = Block::drawing(&hose.route);
    let title = heading(faces, captions::ROUTE, captions::ROUTE_NOTE, WIDTH);
    let x = hose.route.width_mm + APART;
    if WIDTH - x < LEAST || hose.installed.is_empty() {
        return (title.below(picture), true);
    }
    let installed = told_facts(faces, captions::INSTALLED, &hose.installed, WIDTH - x, LABEL);
    if installed.height > picture.height + LOWER {
        return (title.below(picture), true);
    }
    (title.below(picture.beside(x, installed)), false)
}

/// Above the route, mm.
const ROUTE_GAP: f64 = 4.0;

fn name(faces: &Faces, hose: &HoseSheet) -> Block {
    let (bold, plain) = (Style::STRONG.sized(9.6), Style::GROUP.sized(9.6));
    let from = format!(" {} → ", hose.from);
    let rest = format!(" {} · {} · {}", hose.to, hose.size_and_kind, hose.service);
    let spans = [Span("A", bold), Span(&from, plain), Span("B", bold), Span(&rest, plain)];
    paragraph(faces, &[Span(&hose.name, Style::NAME)], WIDTH).below(paragraph(faces, &spans, WIDTH))
}

fn stop(faces: &Faces, hose: &HoseSheet) -> Block {
    const PAD: DVec2 = DVec2::new(3.0, 1.8);
    const WORDS: f64 = 45.0;
    let word = captions::STOP.to_uppercase();
    let heavy = Style::STRONG.sized(12.0);
    let reasons = Block::stacked(hose.stop.iter().map(|why| {
        paragraph(faces, &[Span(why, Style::GROUP.sized(8.8))], WIDTH - WORDS - 2.0 * PAD.x)
    }));
    paragraph(faces, &[Span(&word, heavy)], WORDS - 2.0)
        .beside(WORDS, reasons)
        .framed(WIDTH, PAD, 0.9)
}

fn hero(faces: &Faces, hose: &HoseSheet) -> Block {
    let figure = figure(faces, &hose.cut.main);
    let tolerance = format!("{} {}", captions::TOLERANCE, hose.tolerance_words);
    let source = format!(" {}", hose.tolerance_source);
    let dry_fit = format!(" {}", hose.dry_fit);
    let left = Block::stacked([
        paragraph(faces, &[Span(captions::CUT, Style::LABEL)], HERO),
        figure,
        paragraph(faces, &[Span(&hose.cut.other, Style::GROUP.sized(16.0))], HERO),
        Block::space(0.8),
        paragraph(
            faces,
            &[Span(&tolerance, Style::STRONG.sized(10.5)), Span(&source, Style::SOFT)],
            HERO,
        ),
        Block::space(1.4),
        Block::drawing(&hose.bar),
        Block::space(1.4),
        paragraph(
            faces,
            &[Span(captions::DRY_FIT, Style::STRONG), Span(&dry_fit, Style::GROUP)],
            HERO,
        ),
    ]);
    let x = HERO + GAP;
    left.beside(x, facts(faces, &hose.breakdown, WIDTH - x, 31.0))
}

/// The cut length, as large as its column holds.
fn figure(faces: &Faces, words: &str) -> Block {
    const LARGEST_PT: f64 = 38.0;
    let wide = faces.of(true).width_mm(words, 1.0).max(f64::MIN_POSITIVE);
    let style = Style::STRONG.sized((HERO / wide / PT * 0.999).min(LARGEST_PT));
    paragraph(faces, &[Span(words, style)], HERO)
}

fn ends_and_clock(faces: &Faces, hose: &HoseSheet) -> Block {
    const DIAL: f64 = 40.0;
    let clock = &hose.clock;
    let width = clock.dial.as_ref().map_or(WIDTH, |_| WIDTH - DIAL - GAP);
    let mut block = ends(faces, &hose.ends, width)
        .below(Block::space(2.0))
        .below(self::clock(faces, clock, width));
    if let Some(dial) = &clock.dial {
        let title = format!("{}, seen from A", clock.short);
        let words = [Span(title.as_str(), Style::STRONG)];
        let dial_block =
            Block::drawing(dial).below(aligned(faces, &words, dial.width_mm, Anchor::Middle));
        block.put(dial_block, DVec2::new(WIDTH - DIAL, 0.0));
    }
    block
}

fn ends(faces: &Faces, ends: &[EndSheet; 2], width: f64) -> Block {
    const LABEL: f64 = 27.0;
    let column = (width - LABEL) / 2.0;
    let line = |label: &str, label_style, spans: [Vec<Span<'_>>; 2], rule| {
        let [a, b] = spans;
        let cells = [
            Cell::one(0.0, LABEL - 2.0, vec![Span(label, label_style)]),
            Cell::one(LABEL, column - 2.5, a),
            Cell::one(LABEL + column, column - 2.5, b),
        ];
        row(faces, &cells, width, 0.5, rule)
    };
    let thin = (Shade::Hairline, 0.15);
    let ports = ends.each_ref().map(|end| format!("{}: {}", end.letter, end.port));
    let fittings =
        ends.each_ref().map(|end| format!("{}, {}, {}", end.fitting, end.angle, end.attachment));
    let set_backs = ends.each_ref().map(|end| format!(" {}", end.set_back_source));
    let sockets = ends.each_ref().map(|end| format!(" {}", end.socket_source));
    let [a, b] = ends;
    Block::stacked([
        line(
            "Ends",
            Style::HEADING,
            ports.each_ref().map(|port| vec![Span(port, Style::HEADING.sized(9.0))]),
            (Shade::Ink, 0.4),
        ),
        line(
            "fitting",
            Style::LABEL,
            fittings.each_ref().map(|fitting| vec![Span(fitting, Style::GROUP)]),
            thin,
        ),
        line(
            "set-back used",
            Style::LABEL,
            [
                vec![Span(&a.set_back.main, Style::STRONG), Span(&set_backs[0], Style::SOFT)],
                vec![Span(&b.set_back.main, Style::STRONG), Span(&set_backs[1], Style::SOFT)],
            ],
            thin,
        ),
        line(
            "socket grips",
            Style::LABEL,
            [
                vec![Span(&a.socket.main, Style::STRONG), Span(&sockets[0], Style::SOFT)],
                vec![Span(&b.socket.main, Style::STRONG), Span(&sockets[1], Style::SOFT)],
            ],
            thin,
        ),
        line(
            "thread",
            Style::LABEL,
            ends.each_ref().map(|end| vec![Span(&end.thread, Style::GROUP)]),
            thin,
        ),
    ])
}

fn clock(faces: &Faces, clock: &Clock, width: f64) -> Block {
    let title = format!("Clock angle {}", clock.short);
    let words = format!(" {}", clock.words);
    paragraph(faces, &[Span(&title, Style::HEADING), Span(&words, Style::GROUP)], width)
        .below(paragraph(faces, &[Span(&clock.tolerance, Style::SOFT)], width))
}

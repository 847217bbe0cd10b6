//! The lengths to cut into, drawn to scale: pieces, cuts, what is left.

use eframe::egui::text::{LayoutJob, TextWrapping};
use eframe::egui::{
    CornerRadius, Label, Rect, RichText, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2,
    vec2,
};

use super::title;
use crate::app::panels::soft;
use crate::app::theme::{self, Palette, size};
use crate::app::words as app_words;
use crate::engine::cutting::{BarCuts, KindCuts, MetresCuts, Piece, Proof};
use crate::report::cutlist as words;
use crate::units::{Length, LengthUnit};

const HIGH: f32 = 24.0;
/// A piece narrower than this has no letters on it; its words stand below and in its tip.
const LETTERED: f32 = 26.0;

/// The cut list of one kind of hose.
pub(super) fn kind(ui: &mut Ui, kind: &KindCuts, unit: LengthUnit) {
    let colours = theme::palette(ui);
    let pieces = words::pieces(kind.pieces.len());
    let head = format!("Cut {} {}", kind.name, app_words::dash(kind.dash));
    title(ui, &format!("{head}: {pieces}"));
    let allowed = |mm: f64| Length::from_mm(mm).show(unit);
    let allowances =
        format!("Kerf {} per cut, trim {} per piece", allowed(kind.kerf_mm), allowed(kind.trim_mm));
    ui.label(soft(allowances, colours));
    // All lengths of a kind to one scale.
    let longest = kind.bars.iter().map(|bar| bar.length_mm);
    let longest = longest.chain(kind.metres.iter().map(|metres| metres.length_mm));
    let scale = Scale { longest_mm: longest.fold(1.0, f64::max), unit };
    for bar in &kind.bars {
        length(ui, kind, bar, scale);
    }
    if let Some(one) = &kind.metres {
        metres(ui, kind, one, scale);
    }
    for uncut in &kind.uncut {
        let Some(piece) = kind.pieces.get(uncut.piece) else { continue };
        let text = format!("Not cut: {}", words::uncut(piece, uncut.why, unit));
        ui.add(Label::new(RichText::new(text).color(colours.fail)).wrap());
    }
    if !kind.bars.is_empty() || kind.metres.is_some() {
        let colour = match kind.proof {
            Proof::Best => colours.good,
            Proof::Within { .. } => colours.ink,
            Proof::Unsound => colours.fail,
        };
        let text = RichText::new(words::proof(kind)).size(size::SMALL + 0.5).color(colour);
        ui.add(Label::new(text).wrap());
    }
}

#[derive(Clone, Copy)]
struct Scale {
    longest_mm: f64,
    unit: LengthUnit,
}

impl Scale {
    fn words(self, mm: f64) -> String {
        words::length(mm, self.unit)
    }
}

fn length(ui: &mut Ui, kind: &KindCuts, bar: &BarCuts, scale: Scale) {
    let colours = theme::palette(ui);
    let from = format!("{}, {}", scale.words(bar.length_mm), words::supply(bar.supply));
    let good_for = words::good_for(&names(kind, &bar.good_for));
    let left = format!("Left: {}, {good_for}", scale.words(bar.left_mm));
    caption(ui, &from);
    draw(ui, kind, &bar.pieces, (bar.length_mm, Some(bar.left_mm)), (&from, scale));
    ui.add(Label::new(soft(left, colours)).wrap());
    ui.add_space(4.0);
}

fn metres(ui: &mut Ui, kind: &KindCuts, metres: &MetresCuts, scale: Scale) {
    let whole = words::sold(metres.length_mm, scale.unit);
    let price = metres.price.map_or_else(|| "price not known".to_owned(), |p| format!("{p:.2}"));
    let from = format!("{whole} {}, {price}", words::by_length(scale.unit));
    caption(ui, &from);
    draw(ui, kind, &metres.pieces, (metres.length_mm, None), (&from, scale));
    ui.add_space(4.0);
}

fn caption(ui: &mut Ui, text: &str) {
    ui.label(RichText::new(text).size(size::SMALL + 0.5));
}

fn names(kind: &KindCuts, places: &[usize]) -> String {
    let pieces = places.iter().filter_map(|place| kind.pieces.get(*place));
    pieces.map(|piece| piece.name.as_str()).collect::<Vec<_>>().join(", ")
}

/// A length and its pieces, told in words to who cannot see it and in the tip of each piece.
fn draw(
    ui: &mut Ui,
    kind: &KindCuts,
    places: &[usize],
    (length_mm, left_mm): (f64, Option<f64>),
    (from, scale): (&str, Scale),
) {
    let colours = theme::palette(ui);
    let per_mm = f64::from(ui.available_width()) / scale.longest_mm;
    let (whole, response) =
        ui.allocate_exact_size(vec2((length_mm * per_mm) as f32, HIGH), Sense::hover());
    let pieces: Vec<&Piece> = places.iter().filter_map(|place| kind.pieces.get(*place)).collect();
    let told = pieces.iter().map(|piece| format!("{} {}", scale.words(piece.cut_mm), piece.name));
    let told = told.collect::<Vec<_>>().join(", ");
    response
        .widget_info(|| WidgetInfo::labeled(Role::Image, true, format!("Cut from {from}: {told}")));
    ui.painter().rect_filled(whole, CornerRadius::ZERO, colours.grid_major);
    let mut at = f64::from(whole.min.x);
    for piece in pieces {
        let wide = (piece.cut_mm + kind.trim_mm) * per_mm;
        let rect = Rect::from_min_max(
            pos2(at as f32, whole.min.y),
            pos2(((at + wide) as f32).min(whole.max.x), whole.max.y),
        );
        draw_piece(ui, piece, rect, scale);
        at += wide;
        let cut = ((at + kind.kerf_mm * per_mm).max(at + 1.0) as f32).min(whole.max.x);
        let kerf = Rect::from_min_max(pos2(at as f32, whole.min.y), pos2(cut, whole.max.y));
        if kerf.is_positive() {
            ui.painter().rect_filled(kerf, CornerRadius::ZERO, colours.fail);
        }
        at += kind.kerf_mm * per_mm;
    }
    if let Some(left_mm) = left_mm {
        let left = Rect::from_min_max(pos2(at as f32, whole.min.y), whole.max);
        draw_left(ui, left, &scale.words(left_mm));
    }
    let edge = Stroke::new(1.0, colours.hose_edge);
    ui.painter().rect_stroke(whole, CornerRadius::ZERO, edge, StrokeKind::Inside);
}

fn draw_piece(ui: &mut Ui, piece: &Piece, rect: Rect, scale: Scale) {
    let colours = theme::palette(ui);
    ui.painter().rect_filled(rect, CornerRadius::ZERO, colours.accent_faint);
    let tip = format!("{}: {} to cut", piece.name, scale.words(piece.cut_mm));
    ui.interact(rect, ui.scope_id().with(("piece", &piece.run)), Sense::hover()).on_hover_text(tip);
    let number = Length::from_mm(piece.cut_mm).number(scale.unit);
    lettered(ui, rect, &format!("{number} {}", piece.name), &number, colours);
}

fn draw_left(ui: &Ui, rect: Rect, left: &str) {
    let colours = theme::palette(ui);
    lettered(ui, rect, &format!("left {left}"), "left", colours);
}

/// As much of the words as goes on it: all of them, cut short, or the short ones, or none.
fn lettered(ui: &Ui, rect: Rect, text: &str, short: &str, colours: &Palette) {
    if rect.width() < LETTERED {
        return;
    }
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    let font = theme::font(size::SMALL - 1.0);
    let room = rect.width() - 6.0;
    let mut job = LayoutJob::simple_singleline(text.to_owned(), font.clone(), colours.ink);
    job.wrap = TextWrapping::truncate_at_width(room);
    let whole = painter.layout_job(job);
    let letters: usize = whole.rows.iter().map(|row| row.glyphs.len()).sum();
    let galley = if whole.elided && letters <= short.chars().count() + 1 {
        painter.layout_no_wrap(short.to_owned(), font, colours.ink)
    } else {
        whole
    };
    if galley.size().x <= room {
        let at = rect.left_center() + vec2(4.0, -galley.size().y / 2.0);
        painter.galley(at, galley, colours.ink);
    }
}

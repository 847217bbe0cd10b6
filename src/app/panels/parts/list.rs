//! All parts of a kind with their figures, those of the bay alone below them.

use eframe::egui::{Label, RichText, Ui};

use super::line::line;
use super::soft;
use crate::app::actions::{Action, PartsAct};
use crate::app::seen::Seen;
use crate::app::theme::{self, size};
use crate::app::words;
use crate::model::{EndSize, HoseKind, HoseSize, Stock, StockEntry, StockList, name_or};
use crate::units::{Angle, Derived, Length, LengthUnit, Pressure, Temperature};

pub(super) fn show(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let Some(document) = &seen.work.document else { return };
    let (bay, library, list) = (document.bay(), seen.parts.library.stock(), seen.parts.list);
    let units = bay.show_units;
    let fits = |part: &StockEntry| is_found(part, library, &seen.parts.search);
    let mut parts = StockEntry::all_of(library, list);
    let is_empty = parts.is_empty();
    parts.retain(fits);
    if is_empty {
        empty(ui, list);
    } else if parts.is_empty() {
        ui.label("Nothing found");
    } else {
        line(ui, "", &heads(list, units), true);
    }
    for part in parts {
        if entry(ui, &part, library, &bay.stock, units) {
            actions.push(Action::Parts(PartsAct::Open(part)));
        }
    }
    let mut alone = StockEntry::all_of(&bay.stock, list);
    alone.retain(|part| part.counterpart(library).is_none() && fits(part));
    if !alone.is_empty() {
        of_bay_alone(ui, alone, &bay.stock, units, actions);
    }
}

fn empty(ui: &mut Ui, list: StockList) {
    let colours = theme::palette(ui);
    ui.label(match list {
        StockList::Hoses => "No hose of your own yet",
        StockList::Ends => "No end fitting of your own yet",
        StockList::Clamps => "No clamp yet",
        StockList::Lengths => "No length yet",
    });
    let about = match list {
        StockList::Hoses | StockList::Ends => {
            "What you add here is offered at every hose of every bay, beside the built-in ones. A bay \
             gets its own copy of what it uses."
        }
        StockList::Clamps | StockList::Lengths => {
            "What you put into a bay from here is on its shopping list and cut list."
        }
    };
    ui.add(Label::new(soft(about, colours)).wrap());
}

fn of_bay_alone(
    ui: &mut Ui,
    alone: Vec<StockEntry>,
    stock: &Stock,
    units: LengthUnit,
    actions: &mut Vec<Action>,
) {
    let colours = theme::palette(ui);
    ui.add_space(10.0);
    ui.label(RichText::new("In this bay only").size(size::GROUP).color(colours.accent_text));
    for part in alone {
        ui.horizontal(|ui| {
            let name = format!("Keep {} in the library", title(&part, stock, units));
            let keep =
                ui.button("Keep in library").on_hover_text("Copy it into your parts library");
            if keep.accessible_name(name).clicked() {
                actions.push(Action::Parts(PartsAct::FromBay(part.clone())));
            }
            ui.add(Label::new(title(&part, stock, units)).truncate());
        });
    }
}

/// Whether all that was typed is found in it.
fn is_found(part: &StockEntry, library: &Stock, typed: &str) -> bool {
    let text = match part {
        StockEntry::Hose(hose) => {
            let sizes: String =
                hose.sizes.iter().map(|size| words::dash(size.dash) + " ").collect();
            let made_by = hose.maker.as_deref().unwrap_or_default();
            format!("{} {} {made_by} {} {sizes}", hose.name, hose.id, hose.construction.word())
        }
        StockEntry::End(end) => {
            let size = |size: &EndSize| format!("{} ", size_name(size.dash, size.angle_deg));
            let sizes: String = end.sizes.iter().map(size).collect();
            format!("{} {} {} {sizes}", end.name, end.id, end.maker.as_deref().unwrap_or_default())
        }
        StockEntry::Clamp(clamp) => clamp.name.clone(),
        StockEntry::Length(_) => title(part, library, LengthUnit::Mm),
    };
    let text = text.to_lowercase();
    typed
        .to_lowercase()
        .replace('-', "\u{2212}")
        .split_whitespace()
        .all(|word| text.contains(word) || text.replace('-', "\u{2212}").contains(word))
}

fn heads(list: StockList, units: LengthUnit) -> Vec<String> {
    let by_length = format!("Price/{}", Derived::HoseSold.sign(units));
    let heads: &[&str] = match list {
        StockList::Hoses => &["Bore", "OD", "Bend R", "Rating", &by_length],
        StockList::Ends => &["Along", "Across", "Socket", "Measured", "Price"],
        StockList::Clamps => &["Holds from", "to OD", "Price"],
        StockList::Lengths => &["Length", "Count", "Price"],
    };
    heads.iter().map(|head| (*head).to_owned()).collect()
}

/// One part; says whether it was clicked.
fn entry(ui: &mut Ui, part: &StockEntry, library: &Stock, bay: &Stock, units: LengthUnit) -> bool {
    let colours = theme::palette(ui);
    let name = title(part, library, units);
    let clicked = ui
        .horizontal(|ui| {
            let button = ui.link(&name);
            let said = format!("{name}, {}", part.list().one());
            let button = button.on_hover_text("Change, copy or delete it").accessible_name(said);
            match part.counterpart(bay) {
                Some(other) if other != *part => {
                    let text = RichText::new("other figures in this bay").size(size::SMALL);
                    ui.label(text.color(colours.warn));
                }
                Some(_) => {
                    ui.label(soft("in this bay", colours));
                }
                None => {}
            }
            button.clicked()
        })
        .inner;
    match part {
        StockEntry::Hose(hose) => {
            ui.add(Label::new(soft(about_hose(hose, units), colours)).truncate());
            for size in &hose.sizes {
                line(ui, &words::dash(size.dash), &hose_figures(size, units), false);
            }
        }
        StockEntry::End(end) => {
            for size in &end.sizes {
                let name = size_name(size.dash, size.angle_deg);
                line(ui, &name, &end_figures(size, units), false);
            }
        }
        StockEntry::Clamp(clamp) => {
            let [least, greatest] = clamp.outside_mm.map(|mm| length(Some(mm), units));
            line(ui, "", &[least, greatest, money(clamp.price)], false);
        }
        StockEntry::Length(one) => {
            let count = one.count.map_or_else(|| "to buy".to_owned(), |count| count.to_string());
            let long = Length::from_mm(one.length_mm).show(units);
            line(ui, "", &[long, count, money(one.price)], false);
        }
    }
    ui.add_space(2.0);
    let y = ui.cursor().min.y - 3.0;
    ui.painter().hline(ui.max_rect().x_range(), y, (1.0, colours.hairline));
    clicked
}

/// What a part is called; of a length its hose and size.
pub(super) fn title(part: &StockEntry, stock: &Stock, units: LengthUnit) -> String {
    match part {
        StockEntry::Length(length) => {
            let own = stock.hoses.iter().find(|hose| hose.id == length.hose);
            let hose = own.or_else(|| crate::model::catalogue::hose(&length.hose));
            let name = hose.map_or(length.hose.as_str(), |hose| name_or(&hose.name, &hose.id));
            let long = Length::from_mm(length.length_mm).show(units);
            format!("{name} {}, {long}", words::dash(length.dash))
        }
        other => other.name().to_owned(),
    }
}

pub(super) fn size_name(dash: u32, angle_deg: f64) -> String {
    if angle_deg == 0.0 {
        format!("{} straight", words::dash(dash))
    } else {
        format!("{} {}", words::dash(dash), Angle::from_deg(angle_deg).show())
    }
}

/// "Shed; PTFE, braided; −65 to 400 °F; bend radius inside".
fn about_hose(hose: &HoseKind, units: LengthUnit) -> String {
    let range = hose.temperature_c.map(|range| {
        let [least, greatest] = range.map(|celsius| Temperature::from_celsius(celsius).show(units));
        format!("{least} to {greatest}")
    });
    let liner = hose.liner.as_ref().map(|liner| format!("{liner} liner"));
    let to_centre = hose.bend_to_centre == Some(true);
    let radius = if to_centre { "centre-line radius" } else { "inside radius" };
    let parts = [
        hose.maker.clone(),
        Some(hose.construction.shown().to_owned()),
        liner,
        range,
        Some(radius.to_owned()),
    ];
    parts.into_iter().flatten().filter(|part| !part.is_empty()).collect::<Vec<_>>().join("; ")
}

const NONE: &str = "\u{2013}";

/// To what calipers tell.
fn length(mm: Option<f64>, units: LengthUnit) -> String {
    mm.map_or_else(|| NONE.to_owned(), |mm| Length::from_mm(mm).show_significant(units, 3))
}

fn money(price: Option<f64>) -> String {
    price.map_or_else(|| NONE.to_owned(), |price| format!("{price:.2}"))
}

fn hose_figures(size: &HoseSize, units: LengthUnit) -> Vec<String> {
    let rating = size.max_pressure_bar.map(|bar| Pressure::from_bar(bar).show(units));
    vec![
        length(size.bore_mm, units),
        length(size.outside_mm, units),
        Length::from_mm(size.bend_radius_mm).show(units),
        rating.unwrap_or_else(|| NONE.to_owned()),
        money(size.price_per_m.map(|price| Derived::hose_price(price, units))),
    ]
}

fn end_figures(size: &EndSize, units: LengthUnit) -> Vec<String> {
    let measured = match (size.measured, size.measured_on.trim()) {
        (Some(true), "") => "yes",
        (Some(true), day) => day,
        _ => "no",
    };
    vec![
        length(Some(size.along_mm), units),
        length(Some(size.across_mm), units),
        length(Some(size.socket_mm), units),
        measured.to_owned(),
        money(size.price),
    ]
}

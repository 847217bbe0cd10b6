//! Small words that several parts of the sheet share.

use crate::engine::RunSolution;
use crate::model::{Bay, Fluid, Service, name_or};
use crate::units::{Length, LengthUnit, Pressure, Temperature};

/// A dash size as it is read: `−6`, with a true minus sign.
pub(crate) fn dash_text(dash: u32) -> String {
    format!("\u{2212}{dash}")
}

/// A port's name; its id where it has none.
pub(super) fn port_name(bay: &Bay, id: &str) -> String {
    bay.port(id).map_or(id, |port| name_or(&port.name, id)).to_owned()
}

/// A fluid's name: fuel is called what the builder calls it, who measures in inches or in millimetres.
pub(super) fn fluid_name(fluid: &Fluid, unit: LengthUnit) -> String {
    match (fluid, unit) {
        (Fluid::Petrol, LengthUnit::Inch) => "gasoline".to_owned(),
        (Fluid::PetrolE10, LengthUnit::Inch) => "gasoline (E10)".to_owned(),
        _ => fluid.name(),
    }
}

/// What a hose carries, in words.
pub(super) fn service(service: &Service, unit: LengthUnit) -> String {
    let mut parts = Vec::new();
    parts.extend(service.fluid.as_ref().map(|fluid| fluid_name(fluid, unit)));
    parts.extend(service.pressure_bar.map(|bar| gauge(bar, unit)));
    parts
        .extend(service.temperature_c.map(|celsius| Temperature::from_celsius(celsius).show(unit)));
    if service.flexing == Some(true) {
        parts.push("flexing".to_owned());
    }
    if service.drains == Some(true) {
        parts.push("drains".to_owned());
    }
    if parts.is_empty() { "service not given".to_owned() } else { parts.join(", ") }
}

/// The fluid alone, for a label.
pub(super) fn carries(service: &Service, unit: LengthUnit) -> String {
    let fluid = service.fluid.as_ref();
    fluid.map_or_else(|| "fluid not given".to_owned(), |fluid| fluid_name(fluid, unit))
}

/// The working pressure alone, for a label.
pub(super) fn working_pressure(service: &Service, unit: LengthUnit) -> String {
    service.pressure_bar.map_or_else(
        || "pressure not given".to_owned(),
        |bar| format!("working {}", gauge(bar, unit)),
    )
}

/// A working pressure; below ambient as the vacuum that it is.
fn gauge(bar: f64, unit: LengthUnit) -> String {
    let shown = Pressure::from_bar(bar.abs()).show(unit);
    if bar < 0.0 { format!("vacuum {shown}") } else { shown }
}

/// `3 1/4 of 4 1/4 in`: a centre-line radius and its minimum.
pub(super) fn radius(radius_mm: Option<f64>, solution: &RunSolution, unit: LengthUnit) -> String {
    radius_mm.map_or_else(
        || "nothing bends".to_owned(),
        |radius| of_minimum(radius, solution.radius_limit_mm, unit),
    )
}

/// `1 3/8 of 3/8 in`: a gap and its minimum; `fouls by 3/16 in`.
pub(super) fn gap(gap_mm: f64, min_clearance_mm: f64, unit: LengthUnit) -> String {
    if gap_mm >= 0.0 && min_clearance_mm > 0.0 {
        of_minimum(gap_mm, min_clearance_mm, unit)
    } else {
        bare_gap(gap_mm, unit)
    }
}

/// `3/8 in`; `fouls by 3/16 in`.
pub(crate) fn bare_gap(gap_mm: f64, unit: LengthUnit) -> String {
    if gap_mm < 0.0 {
        format!("fouls by {}", Length::from_mm(-gap_mm).show(unit))
    } else {
        Length::from_mm(gap_mm).show(unit)
    }
}

fn of_minimum(mm: f64, minimum_mm: f64, unit: LengthUnit) -> String {
    format!("{} of {}", Length::from_mm(mm).number(unit), Length::from_mm(minimum_mm).show(unit))
}

//! Small words that several parts of the sheet share.

use crate::model::{Bay, Fluid, Service, name_or};
use crate::units::{LengthUnit, Pressure, PressureUnit, Temperature, TemperatureUnit};

use super::Counts;

/// A dash size as it is read: `−6`, with a true minus sign.
pub(crate) fn dash_text(dash: u32) -> String {
    format!("\u{2212}{dash}")
}

/// A port's name; its id where it has none.
pub(super) fn port_name(bay: &Bay, id: &str) -> String {
    bay.port(id).map_or(id, |port| name_or(&port.name, id)).to_owned()
}

/// A pressure in both units, that of the bay first.
pub(super) fn pressure(pressure: Pressure, unit: LengthUnit) -> String {
    let own = PressureUnit::beside(unit);
    format!("{} ({})", pressure.show(own), pressure.show(own.other()))
}

/// What a hose carries, in words.
pub(super) fn service(service: &Service, unit: LengthUnit) -> String {
    let mut parts = Vec::new();
    parts.extend(service.fluid.as_ref().map(Fluid::name));
    parts.extend(service.pressure_bar.map(|bar| pressure(Pressure::from_bar(bar), unit)));
    parts.extend(service.temperature_c.map(|celsius| {
        let temperature = Temperature::from_celsius(celsius);
        let other = temperature.show(TemperatureUnit::Fahrenheit);
        format!("{} ({other})", temperature.show(TemperatureUnit::Celsius))
    }));
    if service.flexing == Some(true) {
        parts.push("flexing".to_owned());
    }
    if service.drains == Some(true) {
        parts.push("drains".to_owned());
    }
    if parts.is_empty() { "service not given".to_owned() } else { parts.join(", ") }
}

/// The fluid alone, for a label.
pub(super) fn carries(service: &Service) -> String {
    service.fluid.as_ref().map_or_else(|| "fluid not given".to_owned(), Fluid::name)
}

/// The working pressure alone, for a label.
pub(super) fn working_pressure(service: &Service, unit: LengthUnit) -> String {
    service.pressure_bar.map_or_else(
        || "pressure not given".to_owned(),
        |bar| format!("working {}", pressure(Pressure::from_bar(bar), unit)),
    )
}

/// Counts in words.
pub(super) fn counts(counts: Counts) -> String {
    let mut parts = Vec::new();
    if counts.fails > 0 {
        parts.push(format!("{} to fix before cutting", counts.fails));
    }
    if counts.warns > 0 {
        parts.push(format!("{} to look at", counts.warns));
    }
    if counts.notes > 0 {
        let plural = if counts.notes == 1 { "note" } else { "notes" };
        parts.push(format!("{} {plural}", counts.notes));
    }
    if parts.is_empty() { "nothing found".to_owned() } else { parts.join(", ") }
}

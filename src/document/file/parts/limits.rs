//! What no part can be, beyond what the tables of the file refuse key by key.

use std::collections::BTreeMap;

use crate::document::file::json::quoted;
use crate::model::{ClampSize, EndKind, EndSize, HoseKind, HoseSize, Stock};

use super::Fault;

/// Gathers faults below a place.
struct At<'a> {
    pointer: String,
    faults: &'a mut Vec<Fault>,
}

impl At<'_> {
    fn below(&mut self, step: impl std::fmt::Display) -> At<'_> {
        At { pointer: format!("{}/{step}", self.pointer), faults: self.faults }
    }

    /// Finds fault with the member of this key where `is_wrong`.
    fn refuse(&mut self, is_wrong: bool, key: &str, found: impl std::fmt::Display, expected: &str) {
        if is_wrong {
            let (found, expected) = (found.to_string(), expected.to_owned());
            let pointer = format!("{}/{key}", self.pointer);
            self.faults.push(Fault { pointer, found, expected, hint: None });
        }
    }

    /// The same of a figure that may be absent.
    fn figure(
        &mut self,
        key: &str,
        value: Option<f64>,
        is_wrong: impl Fn(f64) -> bool,
        expected: &str,
    ) {
        if let Some(value) = value {
            self.refuse(is_wrong(value), key, value, expected);
        }
    }

    /// Least and greatest, the least first.
    fn span(&mut self, key: &str, span: Option<[f64; 2]>, expected: &str) {
        if let Some([least, greatest]) = span {
            self.refuse(least > greatest, key, format_args!("[{least}, {greatest}]"), expected);
        }
    }

    fn needed(&mut self, key: &str, text: &str, expected: &str) {
        self.refuse(text.trim().is_empty(), key, "nothing", expected);
    }
}

/// All that is impossible, in the order of the lists.
pub(super) fn faults(stock: &Stock) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut at = At { pointer: String::new(), faults: &mut faults };
    let mut names = Names::default();
    for (place, kind) in stock.hoses.iter().enumerate() {
        let at = &mut at.below(format_args!("hoses/{place}"));
        hose(at, kind);
        names.note(at, &kind.name, kind.maker.as_deref());
    }
    let mut names = Names::default();
    for (place, kind) in stock.ends.iter().enumerate() {
        let at = &mut at.below(format_args!("ends/{place}"));
        end(at, kind);
        names.note(at, &kind.name, kind.maker.as_deref());
    }
    for (place, length) in stock.lengths.iter().enumerate() {
        let at = &mut at.below(format_args!("lengths/{place}"));
        let before = stock.lengths[..place].iter();
        let before = before.filter(|other| {
            (&other.hose, other.dash, other.length_mm, other.count.is_some())
                == (&length.hose, length.dash, length.length_mm, length.count.is_some())
        });
        let again = before.count() > 0;
        let expected = "each length of a hose and size once on the shelf and once to be bought";
        at.refuse(again, "length", length.length_mm, expected);
    }
    for (place, size) in stock.clamps.iter().enumerate() {
        let at = &mut at.below(format_args!("clamps/{place}"));
        clamp(at, size, &stock.clamps[..place]);
    }
    faults
}

/// The names so far, each with its manufacturer.
#[derive(Default)]
struct Names(BTreeMap<(String, String), String>);

impl Names {
    fn note(&mut self, at: &mut At<'_>, name: &str, maker: Option<&str>) {
        let plain = |text: &str| text.trim().to_lowercase();
        let key = (plain(name), plain(maker.unwrap_or_default()));
        if key.0.is_empty() {
            return;
        }
        if let Some(before) = self.0.get(&key) {
            let found = format!("{} again, as at {before}", quoted(name));
            at.refuse(true, "name", found, "a name that no other of this manufacturer has");
        } else {
            self.0.insert(key, at.pointer.clone());
        }
    }
}

const SPAN: &str = "a least temperature below the greatest";

fn hose(at: &mut At<'_>, hose: &HoseKind) {
    at.needed("name", &hose.name, "a name");
    at.span("temperature_c", hose.temperature_c, SPAN);
    let change = "the shortest change of length before the longest";
    at.span("length_change_pct", hose.length_change_pct, change);
    at.refuse(hose.sizes.is_empty(), "sizes", "none", "one size at least");
    for (place, size) in hose.sizes.iter().enumerate() {
        hose_size(&mut at.below(format_args!("sizes/{place}")), size);
    }
}

fn hose_size(at: &mut At<'_>, size: &HoseSize) {
    let HoseSize { bore_mm, outside_mm, max_pressure_bar: rating, .. } = *size;
    if let (Some(bore), Some(outside)) = (bore_mm, outside_mm) {
        at.refuse(bore >= outside, "bore", bore, "a bore smaller than the OD");
    }
    pressures(at, rating, size.burst_bar, size.proof_bar);
    at.span("temperature_c", size.temperature_c, SPAN);
    at.figure("mass_per_m", size.mass_kg_per_m, |mass| mass <= 0.0, "a mass above 0");
}

fn pressures(at: &mut At<'_>, rating: Option<f64>, burst: Option<f64>, proof: Option<f64>) {
    let not_positive = |bar: f64| bar <= 0.0;
    at.figure("max_pressure_bar", rating, not_positive, "a rating above 0");
    at.figure("burst_bar", burst, not_positive, "a burst pressure above 0");
    at.figure("proof_bar", proof, not_positive, "a proof pressure above 0");
    let Some(rating) = rating else { return };
    at.figure("burst_bar", burst, |burst| burst < rating, "a burst pressure not below the rating");
    at.figure("proof_bar", proof, |proof| proof < rating, "a proof pressure not below the rating");
    if let Some(burst) = burst {
        let above = "a proof pressure not above the burst pressure";
        at.figure("proof_bar", proof, |proof| proof > burst, above);
    }
}

fn end(at: &mut At<'_>, end: &EndKind) {
    at.needed("name", &end.name, "a name");
    at.refuse(end.sizes.is_empty(), "sizes", "none", "one size at least");
    for (place, size) in end.sizes.iter().enumerate() {
        end_size(&mut at.below(format_args!("sizes/{place}")), size);
    }
}

fn end_size(at: &mut At<'_>, size: &EndSize) {
    let is_straight = size.angle_deg == 0.0;
    let across = "0 on a straight end";
    at.refuse(is_straight && size.across_mm != 0.0, "across", size.across_mm, across);
    let is_point = size.along_mm == 0.0 && size.across_mm == 0.0;
    at.refuse(is_point, "along", size.along_mm, "a cut end away from the seat");
    at.refuse(size.socket_mm == 0.0, "socket", size.socket_mm, "a socket above 0");
    pressures(at, size.max_pressure_bar, None, None);
    at.figure("mass", size.mass_kg, |mass| mass <= 0.0, "a mass above 0");
}

fn clamp(at: &mut At<'_>, clamp: &ClampSize, before: &[ClampSize]) {
    at.span("outside", Some(clamp.outside_mm), "a least OD below the greatest");
    let again = before
        .iter()
        .any(|other| (&other.name, other.outside_mm) == (&clamp.name, clamp.outside_mm));
    at.refuse(again, "name", quoted(&clamp.name), "each name once for the same ODs");
}

#[cfg(test)]
mod tests {
    use super::super::read_parts;

    /// What is wrong with a library of one hose, or end, of these members.
    fn said(list: &str, members: &str, size: &str) -> Vec<String> {
        let text = format!(
            r#"{{"format":"hosewright-parts","version":1,"{list}":[{{"id":"x",{members},"sizes":[{{"dash":6,{size}}}]}}]}}"#
        );
        match read_parts(text.as_bytes()) {
            Ok(_) => vec![],
            Err(error) => error.faults().iter().map(|f| f.expected.clone()).collect(),
        }
    }

    #[test]
    fn what_no_hose_can_be_is_refused() {
        let sound = r#""outside":12,"bend_radius":96"#;
        let name = r#""name":"Test hose""#;
        assert_eq!(said("hoses", name, sound), [""; 0]);
        for (more, expected) in [
            (r#","bore":12"#, "a bore smaller than the OD"),
            (r#","max_pressure_bar":0"#, "a rating above 0"),
            (r#","max_pressure_bar":9,"burst_bar":8"#, "a burst pressure not below the rating"),
            (r#","max_pressure_bar":9,"proof_bar":8"#, "a proof pressure not below the rating"),
            (
                r#","burst_bar":8,"max_pressure_bar":1,"proof_bar":9"#,
                "a proof pressure not above the burst pressure",
            ),
            (r#","temperature_c":[10,-10]"#, "a least temperature below the greatest"),
            (r#","mass_per_m":0"#, "a mass above 0"),
        ] {
            assert_eq!(said("hoses", name, &format!("{sound}{more}")), [expected], "{more}");
        }
        assert_eq!(said("hoses", r#""maker":"m""#, sound), ["a name"]);
    }

    #[test]
    fn what_no_end_can_be_is_refused() {
        let name = r#""name":"Test end""#;
        let end = |size: &str| said("ends", name, size);
        assert_eq!(end(r#""angle_deg":0,"along":21,"across":0,"socket":24"#), [""; 0]);
        assert_eq!(end(r#""angle_deg":180,"along":-4,"across":38,"socket":24"#), [""; 0]);
        assert_eq!(
            end(r#""angle_deg":0,"along":21,"across":2,"socket":24"#),
            ["0 on a straight end"]
        );
        assert_eq!(end(r#""angle_deg":0,"along":21,"across":0,"socket":0"#), ["a socket above 0"]);
        let expected = ["a number from 0 to 180 (degrees)"];
        assert_eq!(end(r#""angle_deg":200,"along":21,"across":0,"socket":24"#), expected);
    }
}

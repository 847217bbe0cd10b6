//! The built-in catalogue: hoses, straight and elbow ends, threads, torque, fluids, fluids; one
//! table a file, each with its source. Constants are in the units of the published table and converted
//! once.
//!
//! A bay's `stock` adds to it and overrides it; nothing here is a manufacturer's figure.

use std::sync::LazyLock;

use super::{EndKind, HoseKind};

pub mod brake_expansion;
pub mod compatibility;
mod elbow;
mod flare_ptfe;
mod flare_rubber;
pub mod fluids;
pub mod nut_hex;
mod ptfe_100r14;
pub mod roughness;
mod rubber_8788;
mod rubber_8794;
pub mod saturation;
pub mod static_charge;
pub mod threads;
pub mod torque;

pub use threads::{Thread, thread};
pub use torque::{Torque, torque};

static HOSES: LazyLock<Vec<HoseKind>> =
    LazyLock::new(|| vec![ptfe_100r14::hose(), rubber_8794::hose(), rubber_8788::hose()]);

static ENDS: LazyLock<Vec<EndKind>> =
    LazyLock::new(|| vec![flare_ptfe::end(), flare_rubber::end()]);

/// The built-in hoses, in the order to show them.
pub fn hoses() -> &'static [HoseKind] {
    &HOSES
}

/// The built-in ends, in the order to show them.
pub fn ends() -> &'static [EndKind] {
    &ENDS
}

/// The built-in hose of this id.
pub fn hose(id: &str) -> Option<&'static HoseKind> {
    hoses().iter().find(|hose| hose.id == id)
}

/// The built-in end of this id.
pub fn end(id: &str) -> Option<&'static EndKind> {
    ends().iter().find(|end| end.id == id)
}

/// Outside diameter of the tube that a dash number names, mm: sixteenths of an inch (common
/// practice). It is not the bore of a hose, nor its outside diameter (FAA AMT Handbook – General
/// p. 7-19).
pub fn tube_outside_mm(dash: u32) -> f64 {
    crate::units::Length::from_inches(f64::from(dash) / 16.0).mm()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn ids_are_unique_and_found() {
        let hose_ids: BTreeSet<_> = hoses().iter().map(|h| h.id.as_str()).collect();
        assert_eq!(hose_ids.len(), hoses().len());
        let end_ids: BTreeSet<_> = ends().iter().map(|e| e.id.as_str()).collect();
        assert_eq!(end_ids.len(), ends().len());
        for id in ["rubber-mil-h-8794", "rubber-mil-h-8788", "ptfe-100r14"] {
            assert_eq!(hose(id).unwrap().id, id);
        }
        for id in ["flare-ptfe", "flare-rubber"] {
            assert_eq!(end(id).unwrap().id, id);
        }
        assert!(hose("no-such-hose").is_none() && end("no-such-end").is_none());
    }

    #[test]
    fn every_size_is_sound() {
        for hose in hoses() {
            let dashes: BTreeSet<_> = hose.sizes.iter().map(|s| s.dash).collect();
            assert_eq!(dashes.len(), hose.sizes.len(), "{}", hose.id);
            for size in &hose.sizes {
                let bore = size.bore_mm.unwrap();
                assert!(bore > 0.0 && size.bend_radius_mm > bore, "{} {}", hose.id, size.dash);
                assert!(size.outside_mm.is_none_or(|outside| outside > bore));
                let working = size.max_pressure_bar.unwrap();
                assert!(size.burst_bar.is_none_or(|burst| burst > working));
            }
        }
    }

    #[test]
    fn every_end_comes_straight_and_as_two_elbows() {
        for end in ends() {
            for size in &end.sizes {
                for angle in [0.0, 45.0, 90.0] {
                    let found = end.size(size.dash, angle).unwrap();
                    assert!(found.along_mm > 0.0 && found.socket_mm > 0.0);
                    assert_eq!(found.across_mm > 0.0, angle > 0.0);
                }
            }
        }
    }
}

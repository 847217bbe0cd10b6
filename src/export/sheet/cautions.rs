//! What to beware of, by fluid, pressure and temperature. Common practice where no source stands.

use crate::model::{Fluid, Service};

use super::Fact;

/// Above this it burns the skin at once, °C (common practice).
const HOT_C: f64 = 60.0;

/// Whose word goes before the sheet's.
pub(super) const DEFER: &str =
    "Local codes, the makers’ instructions and licensed practice come before this sheet.";

/// Worst first.
pub(super) fn cautions(service: &Service) -> Vec<Fact> {
    let mut cautions = Vec::new();
    let mut add = |head: &str, text: &str| cautions.push(Fact::new(head, text, ""));
    match &service.fluid {
        Some(Fluid::BrakeFluid) => add(
            "Brakes",
            "Brake hoses only as complete assemblies that are approved for brakes (FMVSS 106 and \
             the like): not by this sheet. Brake fluid harms paint, skin and eyes.",
        ),
        Some(Fluid::Refrigerant) => add(
            "Refrigerant",
            "Licensed practice only: not by this sheet. It freezes skin, and must not be let off.",
        ),
        Some(fluid) if fluid.is_fuel() => add(
            "Fire",
            "Fuel: work cold and in moving air, battery off, no flame, spark or hot lamp near, \
             extinguisher at hand. Let the pressure off and drain first. No start before the leak \
             test; look again after the first run.",
        ),
        Some(Fluid::Coolant) => {
            add(
                "Scalding",
                "Never open a hot cooling system: it is under pressure and boils over.",
            );
        }
        _ => {}
    }
    add(
        "Pressure",
        "Let it off before a nut is loosened. Never feel for a leak with the hand: a jet goes \
         through skin, which is a case for a doctor at once.",
    );
    if service.temperature_c.is_some_and(|celsius| celsius >= HOT_C) {
        add("Heat", "Hot in service: let it cool, and keep what burns or melts away from it.");
    }
    add(
        "Air tests",
        "Air under pressure stores energy: under water, behind a shield, hose held, never raised \
         above the figure given here.",
    );
    cautions
}

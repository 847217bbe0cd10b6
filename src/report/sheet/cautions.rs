//! What to beware of, each only where it applies. Common practice where no source stands.

use crate::model::{Bay, Fluid, Mark, Run, Service, Side, Source};
use crate::units::{Length, LengthUnit};

use super::Fact;
use super::words::port_name;

/// Above this it burns the skin at once, °C (common practice).
const HOT_C: f64 = 60.0;

const PRACTICE: Source = Source::fixed(Mark::Practice, "");
const STORED_ENERGY: Source =
    Source::fixed(Mark::Published, "29 CFR 1910.147(d)(5); OAR 437-007-0725; NAVEDTRA 14018");
const FIRST_CLAMP: Source = Source::fixed(Mark::Published, "NAVEDTRA 14105; AL0907 p. 59");

/// Worst first.
pub(super) fn cautions(bay: &Bay, run: &Run) -> Vec<Fact> {
    let service = &run.service;
    let mut cautions: Vec<Fact> = of_fluid(service.fluid.as_ref()).into_iter().collect();
    let mut add = |head: &str, text: &str, source: &Source| {
        cautions.push(Fact::new(head, text, "").from(source.to_string()));
    };
    if service.is_hydraulic() {
        add(
            "Before it is opened",
            "Engine off. Lower or prop all that can fall. Work the levers both ways, empty the accumulators, \
             see on a gauge that no pressure is left. Let it cool; open slowly, behind a rag and goggles.",
            &STORED_ENERGY,
        );
    }
    if service.sucks() {
        add(
            "Suction",
            "Pressure does not prove a suction hose: it, or its liner, may collapse. Take one that its manufacturer \
             rates for this vacuum, and hold it at the vacuum given here.",
            &PRACTICE,
        );
    }
    add(
        "Pressure",
        "Let it off before a nut is loosened. Never feel for a leak with the hand: a jet goes \
         through skin, which is a case for a doctor at once.",
        &PRACTICE,
    );
    if service.temperature_c.is_some_and(|celsius| celsius >= HOT_C) {
        add(
            "Heat",
            "Hot in service: let it cool, and keep what burns or melts away from it.",
            &PRACTICE,
        );
    }
    if is_tested_with_air(service) {
        const STORES: &str = "Air stores energy: under water, behind a shield, hose held, never above the figure given here.";
        const HELD_FUEL: &str = " Never air-test a hose that has held fuel, its vapour can explode: drain, flush \
                                 and dry it, test it full of liquid.";
        let is_fuel = service.fluid.as_ref().is_some_and(Fluid::is_fuel);
        let fuel = if is_fuel { HELD_FUEL } else { "" };
        add("Air tests", &format!("{STORES}{fuel}"), &PRACTICE);
    }
    cautions.extend(first_clamp(bay, run));
    cautions
}

/// Brakes and refrigerant are tested by others.
fn is_tested_with_air(service: &Service) -> bool {
    !matches!(service.fluid, Some(Fluid::BrakeFluid | Fluid::Refrigerant))
}

fn of_fluid(fluid: Option<&Fluid>) -> Option<Fact> {
    let (head, text) = match fluid? {
        Fluid::BrakeFluid => (
            "Brakes",
            "Brake hoses only as complete assemblies that are approved for brakes (FMVSS 106 and \
             the like): not by this sheet. Brake fluid harms paint, skin and eyes.",
        ),
        Fluid::Refrigerant => (
            "Refrigerant",
            "Licensed technicians only: not by this sheet. It freezes skin, and must not be let off.",
        ),
        Fluid::Coolant => {
            ("Scalding", "Never open a hot cooling system: it is under pressure and boils over.")
        }
        fluid if fluid.is_fuel() => (
            "Fire",
            "Fuel: work cold and in moving air, battery off, no flame, spark or hot lamp near, \
             extinguisher at hand. Drain first. No start before the tests; look again after the first \
             run.",
        ),
        _ => return None,
    };
    Some(Fact::new(head, text, "").from(PRACTICE.to_string()))
}

/// Where the hose is held first beside an end that moves.
fn first_clamp(bay: &Bay, run: &Run) -> Option<Fact> {
    let rides = |side: &Side| {
        bay.port(&run.end(*side).port).and_then(|port| port.group.as_deref()).is_some()
    };
    let moving: Vec<String> = [Side::A, Side::B]
        .into_iter()
        .filter(rides)
        .map(|side| format!("{} ({})", side.letter(), port_name(bay, &run.end(side).port)))
        .collect();
    if moving.is_empty() {
        return None;
    }
    let about = |inches| {
        let length = Length::from_inches(inches);
        match bay.show_units {
            LengthUnit::Inch => length.show(LengthUnit::Inch),
            LengthUnit::Mm => length.show_significant(LengthUnit::Mm, 2),
        }
    };
    let (from_end, slack) = (about(3.0), about(1.5));
    let text = format!(
        "End {} moves: the first clamp about {from_end} from it, with {slack} of slack to it.",
        moving.join(" and end "),
    );
    Some(Fact::new("First clamp", text, "").from(FIRST_CLAMP.to_string()))
}

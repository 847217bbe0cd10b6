//! What to test at, with what, and what that stores. Common practice where no source stands.

use crate::engine::RunSolution;
use crate::engine::leak_test::{
    AIR_TEST_SOURCE, LEAST_HOLD_S, NoPressure, PROOF_SOURCE, STORED_ENERGY_SOURCE,
    STORED_WATER_SOURCE, SWELLING_SOURCE, proof_pressure, stored_air_energy_j,
    stored_water_energy_j, swelling_energy_j, swelling_of_size_j, test_pressure,
};
use crate::model::catalogue::brake_expansion::{self, brake_expansion_ml_per_m};
use crate::model::{Fluid, HoseKind, HoseSize, Run, TestMethod};
use crate::units::{Derived, LengthUnit, Pressure};

use super::Fact;

/// Systems under the first are proved at the second, psi ([`PROOF_SOURCE`]).
const LOW_SYSTEM_PSI: f64 = 50.0;
const LEAST_PROOF_PSI: f64 = 100.0;

/// What to test at. Left to others where a builder may not decide it.
pub(super) fn leak_test(
    run: &Run,
    (kind, size): (&HoseKind, &HoseSize),
    solution: &RunSolution,
    unit: LengthUnit,
) -> Vec<Fact> {
    let pressure_of = |method| test_pressure(method, &run.service, Some(size));
    let length_mm = solution.cut_length_mm;
    if pressure_of(TestMethod::Liquid) == Err(NoPressure::LeftToOthers) {
        return left_to_others(run, size, length_mm, unit);
    }
    let proof = pressure_of(TestMethod::Liquid).ok();
    let mut facts = vec![with_liquid(run, kind, proof, unit)];
    if run.service.sucks() {
        facts.push(with_vacuum(unit));
    }
    if let Ok(air) = pressure_of(TestMethod::Air) {
        facts.push(with_air(run, air, unit));
        facts.extend(size.bore_mm.map(|bore_mm| {
            let joule = stored_air_energy_j(bore_mm, length_mm, air);
            Fact::new("energy in air", energy(joule, unit), "shield it")
                .from(STORED_ENERGY_SOURCE.to_string())
        }));
    }
    facts.push(Fact::new(
        "passes with",
        "no steady bubbles",
        "no drops, no fall but by temperature",
    ));
    facts
}

/// Brakes and refrigerant. How much a brake hose may swell is a published limit: it is told.
fn left_to_others(run: &Run, size: &HoseSize, length_mm: f64, unit: LengthUnit) -> Vec<Fact> {
    let is_brake = run.service.fluid == Some(Fluid::BrakeFluid);
    let by = if is_brake {
        "by the approved assembly’s manufacturer"
    } else {
        "by a licensed technician"
    };
    let mut facts = vec![Fact::new("test", by, "not by this sheet")];
    facts.extend(size.bore_mm.filter(|_| is_brake).map(|bore_mm| {
        let at = Pressure::from_psi(brake_expansion::AT_PSI);
        let joule = swelling_energy_j(brake_expansion_ml_per_m(bore_mm), at, length_mm, at);
        let value = format!("{} at {}", energy(joule, unit), at.show(unit));
        Fact::new("a brake hose stores", value, "at the published limit, not this hose")
            .from(brake_expansion::SOURCE.to_string())
    }));
    facts
}

/// What the liquid stores, and the hose that swells, where its maker says by how much.
pub(super) fn stored(run: &Run, size: &HoseSize, length_mm: f64, unit: LengthUnit) -> Option<Fact> {
    let proof = test_pressure(TestMethod::Liquid, &run.service, Some(size)).ok()?;
    let bore_mm = size.bore_mm?;
    let water = stored_water_energy_j(bore_mm, length_mm, proof);
    if let Some(hose) = swelling_of_size_j(size, length_mm, proof) {
        let remark = format!(
            "water {}, swelling hose {} (manufacturer’s figure, from the bay file); any air left in it adds",
            energy(water, unit),
            energy(hose, unit),
        );
        let fact = Fact::new(STORED, energy(water + hose, unit), remark);
        return Some(fact.from(format!("{STORED_WATER_SOURCE}; {SWELLING_SOURCE}")));
    }
    let alone =
        format!("water alone, the hose that swells adds many times that; {STORED_WATER_SOURCE}");
    Some(Fact::new(STORED, energy(water, unit), "").from(alone))
}

fn with_air(run: &Run, air: Pressure, unit: LengthUnit) -> Fact {
    let fuel = run.service.fluid.as_ref().is_some_and(Fluid::is_fuel);
    let new_only = if fuel { "; a new hose only" } else { "" };
    let remark = format!("2 min an end, {LEAST_HOLD_S} s at least{new_only}");
    Fact::new("leak check (air under water)", air.show(unit), remark)
        .from(AIR_TEST_SOURCE.to_string())
}

/// 28 inHg are 0.948 bar.
fn with_vacuum(unit: LengthUnit) -> Fact {
    const REMARK: &str = "below ambient, 5 min, at its minimum radius; a ball rolls through";
    Fact::new("vacuum test", vacuum(unit), REMARK)
        .from("MIL-DTL-8794F 4.8.9, rubber −3 to −10 (published)")
}

/// What a suction hose is held at.
pub(super) fn vacuum(unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Inch => "28 inHg",
        LengthUnit::Mm => "0.95 bar",
    }
}

/// What to prove it at, and why.
fn with_liquid(run: &Run, kind: &HoseKind, proof: Option<Pressure>, unit: LengthUnit) -> Fact {
    let (Some(proof), Some(bar)) = (proof, run.service.pressure_bar) else {
        let [least, low] =
            [LEAST_PROOF_PSI, LOW_SYSTEM_PSI].map(|psi| Pressure::from_psi(psi).show(unit));
        let remark = format!("at least {least} for systems under {low}");
        return Fact::new(PROOF, "2 × working pressure", remark).from(PROOF_SOURCE.to_string());
    };
    let fact = |remark| Fact::new(PROOF, proof.show(unit), remark);
    if proof < proof_pressure(Pressure::from_bar(bar)) {
        fact("the hose’s own proof pressure, below 2 × working; shielded, air bled".to_owned())
            .from(kind.sources.pressure.to_string())
    } else {
        let is_twice = proof.bar() <= 2.0 * bar + 1e-9;
        let low = Pressure::from_psi(LOW_SYSTEM_PSI).show(unit);
        let why = if is_twice { "2 × working".to_owned() } else { format!("least below {low}") };
        fact(format!("{why}, shielded, air bled")).from(PROOF_SOURCE.to_string())
    }
}

const STORED: &str = "energy at proof";

const PROOF: &str = "proof test (liquid)";

/// What is stored is never told as nothing.
fn energy(joule: f64, unit: LengthUnit) -> String {
    let (number, sign) = (Derived::Energy.number(joule, unit), Derived::Energy.sign(unit));
    if number < 0.1 {
        format!("under 0.1 {sign}")
    } else if number < 10.0 {
        format!("{number:.1} {sign}")
    } else {
        format!("{number:.0} {sign}")
    }
}

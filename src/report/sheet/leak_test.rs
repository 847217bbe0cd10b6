//! What to test at, with what, and what that stores. Common practice where no source stands.

use crate::engine::RunSolution;
use crate::engine::leak_test::{
    AIR_TEST_SOURCE, LEAST_HOLD_S, NoPressure, PROOF_SOURCE, STORED_ENERGY_SOURCE,
    STORED_WATER_SOURCE, SWELLING_SOURCE, proof_pressure, stored_air_energy_j,
    stored_water_energy_j, swelling_energy_j, swelling_of_size_j, test_pressure,
};
use crate::model::catalogue::brake_expansion::{self, brake_expansion_ml_per_m};
use crate::model::{Fluid, HoseKind, HoseSize, Run, TestMethod};
use crate::units::{LengthUnit, Pressure};

use super::Fact;
use super::words::pressure;

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
    facts.extend(proof.zip(size.bore_mm).map(|(proof, bore)| stored(size, bore, length_mm, proof)));
    if run.service.sucks() {
        facts.push(with_vacuum(unit));
    }
    if let Ok(air) = pressure_of(TestMethod::Air) {
        facts.push(with_air(run, air, unit));
        facts.extend(size.bore_mm.map(|bore_mm| {
            let joule = stored_air_energy_j(bore_mm, length_mm, air);
            let remark = format!("shield it; {STORED_ENERGY_SOURCE}");
            Fact::new("stored in that air", energy(joule), remark)
        }));
    }
    facts.push(Fact::new(
        "it passes with",
        "no steady bubbles, no drops",
        "and no fall of pressure beyond what temperature explains",
    ));
    facts
}

/// Brakes and refrigerant. How much a brake hose may swell is a published limit: it is told.
fn left_to_others(run: &Run, size: &HoseSize, length_mm: f64, unit: LengthUnit) -> Vec<Fact> {
    let is_brake = run.service.fluid == Some(Fluid::BrakeFluid);
    let by = if is_brake { "by the approved assembly’s maker" } else { "by licensed practice" };
    let mut facts = vec![Fact::new("test", by, "not by this sheet")];
    facts.extend(size.bore_mm.filter(|_| is_brake).map(|bore_mm| {
        let at = Pressure::from_psi(brake_expansion::AT_PSI);
        let joule = swelling_energy_j(brake_expansion_ml_per_m(bore_mm), at, length_mm, at);
        let value = format!("{} at {}", energy(joule), pressure(at, unit));
        let remark = format!("a hose at the limit of {}, not this hose", brake_expansion::SOURCE);
        Fact::new("a brake hose stores", value, remark)
    }));
    facts
}

/// What the liquid stores, and the hose that swells, where its maker says by how much.
fn stored(size: &HoseSize, bore_mm: f64, length_mm: f64, proof: Pressure) -> Fact {
    let water = stored_water_energy_j(bore_mm, length_mm, proof);
    if let Some(hose) = swelling_of_size_j(size, length_mm, proof) {
        let remark = format!(
            "water {} ({STORED_WATER_SOURCE}) and swelling hose {} ({SWELLING_SOURCE}; maker’s figure, \
                 from the bay file); any air left in it adds",
            energy(water),
            energy(hose),
        );
        return Fact::new("stored in that", energy(water + hose), remark);
    }
    let remark = format!(
        "{STORED_WATER_SOURCE}; left out: the swelling hose, its expansion is not given. The real figure \
                 is many times larger; air left in it adds"
    );
    Fact::new("stored, water alone", energy(water), remark)
}

fn with_air(run: &Run, air: Pressure, unit: LengthUnit) -> Fact {
    let fuel = run.service.fluid.as_ref().is_some_and(Fluid::is_fuel);
    let new_only = if fuel { "; a new hose only, never one that has held fuel" } else { "" };
    let remark = format!(
        "under water, 2 min an end (common practice); {LEAST_HOLD_S} s at least, {AIR_TEST_SOURCE}; never \
         more{new_only}"
    );
    Fact::new("with air", pressure(air, unit), remark)
}

/// 28 inHg are 0.948 bar.
fn with_vacuum(unit: LengthUnit) -> Fact {
    let value = match unit {
        LengthUnit::Inch => "28 inHg (0.95 bar) below the air",
        LengthUnit::Mm => "0.95 bar (28 inHg) below the air",
    };
    Fact::new(
        "with vacuum",
        value,
        "5 min, bent to its least radius: no collapse, a ball rolls through (MIL-DTL-8794F 4.8.9, rubber −3 \
         to −10, published)",
    )
}

/// What to prove it at, and why.
fn with_liquid(run: &Run, kind: &HoseKind, proof: Option<Pressure>, unit: LengthUnit) -> Fact {
    let (Some(proof), Some(bar)) = (proof, run.service.pressure_bar) else {
        let [least, low] =
            [LEAST_PROOF_PSI, LOW_SYSTEM_PSI].map(|psi| pressure(Pressure::from_psi(psi), unit));
        let remark = format!("at least {least} for systems under {low}; {PROOF_SOURCE}");
        return Fact::new("with liquid", "2 × working pressure", remark);
    };
    let remark = if proof < proof_pressure(Pressure::from_bar(bar)) {
        format!("the hose’s own proof pressure, below 2 × working; {}", kind.sources.pressure)
    } else {
        let is_twice = proof.bar() <= 2.0 * bar + 1e-9;
        let low = pressure(Pressure::from_psi(LOW_SYSTEM_PSI), unit);
        let why = if is_twice {
            "2 × working".to_owned()
        } else {
            format!("least for a system under {low}")
        };
        format!("{why}, shielded, air bled; {PROOF_SOURCE}")
    };
    Fact::new("with liquid", pressure(proof, unit), remark)
}

/// What is stored is never told as nothing.
fn energy(joule: f64) -> String {
    if joule < 0.1 {
        "under 0.1 J".to_owned()
    } else if joule < 10.0 {
        format!("{joule:.1} J")
    } else {
        format!("{joule:.0} J")
    }
}

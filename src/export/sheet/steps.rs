//! On the bench, in order, and the leak test. Common practice where no source stands.

use crate::engine::RunSolution;
use crate::engine::leak_test::{
    AIR_TEST_SOURCE, LEAST_HOLD_S, NoPressure, PROOF_SOURCE, STORED_ENERGY_SOURCE,
    STORED_WATER_SOURCE, proof_pressure, stored_air_energy_j, stored_water_energy_j, test_pressure,
};
use crate::model::{Construction, Fluid, HoseKind, HoseSize, Run, TestMethod, tolerance};
use crate::units::{Length, LengthUnit, Pressure};

use super::words::pressure;
use super::{Clock, Fact};

/// The steps for this hose.
pub(super) fn steps(
    name: &str,
    construction: &Construction,
    bore_mm: Option<f64>,
    clock: &Clock,
    unit: LengthUnit,
    sleeves: Option<String>,
) -> Vec<String> {
    let square = bore_mm.and_then(tolerance::square_cut_tolerance_mm).map_or_else(
        || "Cut square".to_owned(),
        |mm| {
            let within = Length::from_mm(mm).show(unit);
            format!("Cut square, within {within} ({})", tolerance::SQUARE_CUT.text)
        },
    );
    let mut steps = vec!["Tape the hose at the cut; mark from end A".to_owned()];
    match construction {
        Construction::PushOn => {
            steps.push(format!("{square}, with a sharp blade"));
            steps.push("Blow out every bit of swarf".to_owned());
            steps.extend(sleeves);
            steps.push("Push on to the maker’s stop".to_owned());
        }
        other => {
            let shear = if *other == Construction::PtfeBraid {
                ": wheel or shear; open the liner again after a shear"
            } else {
                ": wheel or shear"
            };
            steps.push(format!("{square}{shear}"));
            steps.push("Clean, blow out every bit of swarf".to_owned());
            steps.extend(sleeves);
            steps.push("Sockets on, tape off".to_owned());
            if *other == Construction::PtfeBraid {
                steps.push(
                    "New ferrule between braid and liner, liner seated on its shoulder".to_owned(),
                );
            }
            steps.push(format!(
                "Nipple in by hand, then in soft jaws with a smooth-jawed wrench, {}",
                gap(other)
            ));
        }
    }
    if clock.between_deg.is_some() {
        steps.push(format!("Clock angle {} set before the last turns", clock.short));
    }
    steps.push("Clean again, leak test, dry, cap".to_owned());
    steps.push(format!("Label: {name}"));
    steps
}

/// Nipple hex to socket (TM 1-1500-204-23-2, published); it varies with the maker.
fn gap(construction: &Construction) -> &'static str {
    match construction {
        Construction::PtfeBraid => {
            "to the maker’s gap (fluid-pressure PTFE: not under 0.025 in, TM 1-1500-204-23-2)"
        }
        Construction::RubberBraid => {
            "to the maker’s gap (rubber: up to 1/16 in, TM 1-1500-204-23-2)"
        }
        _ => "to the maker’s gap",
    }
}

/// What to test at. Left to others where a builder may not decide it.
pub(super) fn leak_test(
    run: &Run,
    kind: &HoseKind,
    size: &HoseSize,
    solution: &RunSolution,
) -> Vec<Fact> {
    let pressure_of = |method| test_pressure(method, &run.service, Some(size));
    if pressure_of(TestMethod::Liquid) == Err(NoPressure::LeftToOthers) {
        let by = match run.service.fluid {
            Some(Fluid::BrakeFluid) => "by the approved assembly’s maker",
            _ => "by licensed practice",
        };
        return vec![Fact::new("test", by, "not by this sheet")];
    }
    let proof = pressure_of(TestMethod::Liquid).ok();
    let mut facts = vec![with_liquid(run, kind, proof)];
    let length_mm = solution.cut_length_mm;
    facts.extend(proof.zip(size.bore_mm).map(|(proof, bore_mm)| {
        let joule = stored_water_energy_j(bore_mm, length_mm, proof);
        let remark = format!("{STORED_WATER_SOURCE}; any air left in it adds");
        Fact::new("stored in that, of water", energy(joule), remark)
    }));
    if let Ok(air) = pressure_of(TestMethod::Air) {
        let remark = format!(
            "under water, 2 min an end (common practice); {LEAST_HOLD_S} s at least, \
             {AIR_TEST_SOURCE}; never more"
        );
        facts.push(Fact::new("with air", pressure(air), remark));
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

/// What to prove it at, and why.
fn with_liquid(run: &Run, kind: &HoseKind, proof: Option<Pressure>) -> Fact {
    let (Some(proof), Some(bar)) = (proof, run.service.pressure_bar) else {
        let remark = format!("at least 100 psi for systems under 50 psi; {PROOF_SOURCE}");
        return Fact::new("with liquid", "2 × working pressure", remark);
    };
    let remark = if proof < proof_pressure(Pressure::from_bar(bar)) {
        format!("the hose’s own proof pressure, below 2 × working; {}", kind.sources.pressure)
    } else {
        let is_twice = proof.bar() <= 2.0 * bar + 1e-9;
        let why = if is_twice { "2 × working" } else { "least for a system under 50 psi" };
        format!("{why}, shielded, air bled; {PROOF_SOURCE}")
    };
    Fact::new("with liquid", pressure(proof), remark)
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

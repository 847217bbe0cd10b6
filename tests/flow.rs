//! What a flow takes: by hand through a whole bay, what is not known and why, and by property.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

mod common;

use common::build::{bay, corner, port, run, solved, straight_end};
use glam::DVec3;
use hosewright::engine::flow::{
    Liquid, NoFlow, Pipe, PipeBend, Regime, RunFlow, bend_loss, d341_mm2_s, flow_in_run, flow_of,
    friction_factor,
};
use hosewright::engine::solve;
use hosewright::export::check_json;
use hosewright::export::{Format, Paper};
use hosewright::model::{Bay, Construction, Fluid, Service, Via};
use hosewright::report::check::Report;
use hosewright::report::flow::{cold_start_in_words, why_not_known};
use hosewright::report::sheet::{Sheet, SheetInfo};
use hosewright::units::LengthUnit;
use proptest::prelude::*;
use serde_json::Value;

/// A hose of 8 mm bore between ports 600 mm apart, that carries something.
fn carrying(service: Service, via: Vec<Via>) -> Bay {
    let ports =
        vec![port("a", DVec3::ZERO, DVec3::X), port("b", DVec3::new(600.0, 0.0, 0.0), -DVec3::X)];
    let mut one = run(straight_end("a", None), straight_end("b", None), via);
    one.service = service;
    bay(ports, one)
}

fn service(fluid: Fluid, flow_lpm: f64, celsius: f64) -> Service {
    Service {
        fluid: Some(fluid),
        flow_lpm: Some(flow_lpm),
        temperature_c: Some(celsius),
        ..Service::default()
    }
}

fn water() -> Service {
    service(Fluid::Water, 10.0, 20.0)
}

fn flow(bay: &Bay) -> Result<RunFlow, NoFlow> {
    flow_of(bay, &bay.routings[0].runs[0], &solved(bay))
}

fn report(bay: &Bay) -> Value {
    serde_json::from_str(&check_json(&Report::new(&common::answer(bay)))).unwrap()
}

/// fluids 1.3.1 (Churchill): water of 998.21 kg/m³ and 1.0016 mPa·s, 10 L/min through 0.6 m of 8 mm bore,
/// roughness 1.5 µm: 3.315728 m/s, Re 26 436.04, 10 143.88 Pa.
#[test]
fn a_straight_hose_through_the_report() {
    let told = report(&carrying(water(), vec![]));
    let flow = &told["runs"][0]["flow"];
    let is = |key: &str, wanted: f64| {
        let got = flow[key].as_f64().expect(key);
        assert!((got / wanted - 1.0).abs() < 1e-6, "{key}: {got}");
    };
    is("velocity_m_s", 3.315_728);
    is("reynolds", 26_436.045);
    is("pressure_drop_bar", 0.101_438_783);
    is("friction_bar", 0.101_438_783);
    is("length_mm", 600.0);
    assert_eq!(flow["bends_bar"], 0.0);
    assert_eq!(flow["regime"], "turbulent");
    assert_eq!(flow["properties"]["fluid"], "water");
    for absent in ["least_pressure_drop_bar", "cold_start"] {
        assert!(flow.get(absent).is_none(), "{absent}");
    }
    assert!(told["runs"][0].get("flow_not_known").is_none());
}

/// The slack counts as hose; each bend adds what Rennels has beyond its arc, by hand.
#[test]
fn slack_and_bends_take_their_share() {
    let mut bay = carrying(water(), vec![corner(300.0, 200.0, 0.0)]);
    bay.routings[0].runs[0].slack_pct = Some(8.0);
    let (run, flow) = (solved(&bay), flow(&bay).unwrap());
    assert!((flow.length_mm - 1.08 * run.centreline_mm).abs() < 1e-9);
    let head_pa = 998.21 * flow.loss.velocity_m_s.powi(2) / 2.0;
    let f = flow.loss.friction_factor;
    let friction_pa = f * flow.length_mm / 8.0 * head_pa;
    assert!((flow.loss.friction_pa / friction_pa - 1.0).abs() < 1e-12);
    assert_eq!(run.bends().len(), 3);
    let bends_pa: f64 = run
        .bends()
        .iter()
        .map(|bend| {
            let (half, ratio) = (bend.angle_deg.to_radians() / 2.0, bend.radius_mm / 8.0);
            let sine = half.sin();
            let sharp = ratio.powf(8.0 * half / std::f64::consts::PI);
            (0.10 + 2.4 * f) * sine * head_pa + 6.6 * f * (sine.sqrt() + sine) / sharp * head_pa
        })
        .sum();
    assert!((flow.loss.bends_pa / bends_pa - 1.0).abs() < 1e-12);
    assert!(bends_pa > 0.05 * friction_pa, "{bends_pa} {friction_pa}");
}

#[test]
fn what_is_not_known_says_why() {
    let why = |service: Service| flow(&carrying(service, vec![])).unwrap_err();
    let with = |change: fn(&mut Service)| {
        let mut service = water();
        change(&mut service);
        why(service)
    };
    assert_eq!(with(|d| d.flow_lpm = None), NoFlow::FlowNotGiven);
    assert_eq!(with(|d| d.fluid = None), NoFlow::FluidNotGiven);
    assert_eq!(with(|d| d.temperature_c = None), NoFlow::TemperatureNotGiven);
    let frozen = with(|d| d.temperature_c = Some(-1.0));
    for (unit, figures) in [
        (LengthUnit::Mm, "from 0 °C to 130 °C, and it works at \u{2212}1 °C"),
        (LengthUnit::Inch, "from 32 °F to 266 °F, and it works at 30.2 °F"),
    ] {
        let said =
            format!("water: there are figures {figures}: give density and viscosity of yours");
        assert_eq!(why_not_known(&frozen, unit), Some(said));
    }
    for (fluid, said) in [
        (Fluid::Air, "air changes its density on the way, which is not calculated"),
        (Fluid::Vacuum, "vacuum changes its density on the way, which is not calculated"),
        (Fluid::BrakeFluid, "lines of brake fluid are not sized here"),
        (Fluid::Refrigerant, "lines of refrigerant are not sized here"),
        (
            Fluid::Other("chain oil".into()),
            "no density and viscosity of chain oil are listed: give yours",
        ),
    ] {
        assert_eq!(why(service(fluid, 5.0, 20.0)).to_string(), said);
    }
}

#[test]
fn what_is_not_known_of_the_hose_says_why() {
    let why = |change: fn(&mut Bay)| {
        let mut bay = carrying(water(), vec![]);
        change(&mut bay);
        let solution = solve(&bay);
        flow_in_run(&bay, &bay.routings[0].runs[0], &solution.routings[0].runs[0]).unwrap_err()
    };
    assert_eq!(why(|bay| bay.stock.hoses[0].sizes[0].bore_mm = None), NoFlow::BoreNotKnown);
    assert_eq!(
        why(|bay| bay.stock.hoses[0].construction = Construction::Other("metal".into())),
        NoFlow::RoughnessNotKnown
    );
    assert!(matches!(
        why(|bay| bay.routings[0].runs[0].hose = "none".into()),
        NoFlow::NotSolved(_)
    ));
    // Two corners so near to each other that no round bend has room between them.
    let kinked = carrying(water(), vec![corner(300.0, 100.0, 0.0), corner(300.0, 101.0, 0.0)]);
    assert_eq!(flow(&kinked).unwrap_err(), NoFlow::Kinked);
}

#[test]
fn the_report_leaves_out_what_is_not_known() {
    let told = |service| report(&carrying(service, vec![]))["runs"][0].clone();
    let air = told(service(Fluid::Air, 5.0, 20.0));
    assert!(air.get("flow").is_none());
    assert!(air["flow_not_known"].as_str().unwrap().starts_with("air changes its density"));
    let nothing = told(Service::default());
    assert!(nothing.get("flow").is_none() && nothing.get("flow_not_known").is_none());
}

/// The builder's own figures hold for any fluid, at no temperature, but for brakes and refrigerant.
#[test]
fn own_density_and_viscosity() {
    let own = |fluid: Option<Fluid>| Service {
        fluid,
        temperature_c: None,
        density_kg_m3: Some(998.21),
        viscosity_mm2_s: Some(1.0016 / 998.21 * 1000.0),
        ..water()
    };
    let listed = flow(&carrying(water(), vec![])).unwrap();
    for fluid in [None, Some(Fluid::Other("chain oil".into())), Some(Fluid::Air)] {
        let told = flow(&carrying(own(fluid), vec![])).unwrap();
        assert!((told.drop_bar() / listed.drop_bar() - 1.0).abs() < 1e-12);
        assert!(told.fluid.is_own() && told.fluid.source.to_string().contains("your own"));
    }
    let brakes = flow(&carrying(own(Some(Fluid::BrakeFluid)), vec![]));
    assert!(matches!(brakes, Err(NoFlow::NotSized { .. })));
    // One alone is not in force.
    let alone = Service { density_kg_m3: Some(1.0), ..water() };
    assert_eq!(flow(&carrying(alone, vec![])).unwrap().loss, listed.loss);
}

/// Thin and thick: the greatest drop is told, and the least beside it.
#[test]
fn a_fluid_that_may_be_thin_or_thick() {
    let told = flow(&carrying(service(Fluid::Diesel, 2.0, 20.0), vec![])).unwrap();
    assert_eq!(told.regime(), Regime::Laminar);
    // Laminar by hand: Δp = 32 μ L v / d², 832 kg/m³.
    let by_hand = |mm2_s: f64| {
        let velocity = 2.0 / 60_000.0 / (std::f64::consts::FRAC_PI_4 * 0.008 * 0.008);
        32.0 * mm2_s * 1e-6 * 832.0 * 0.6 * velocity / (0.008 * 0.008) / 1e5
    };
    assert!((told.drop_bar() / by_hand(5.0) - 1.0).abs() < 2e-3, "{told:?}");
    assert!((told.least_drop_bar().unwrap() / by_hand(2.8) - 1.0).abs() < 2e-2, "{told:?}");
    // Where it becomes turbulent the thinner may take more than the thickest.
    let hump = flow(&carrying(service(Fluid::Diesel, 4.0, 20.0), vec![])).unwrap();
    let pipe = Pipe { bore_mm: 8.0, length_mm: 600.0, roughness_mm: 0.0015, bends: &[] };
    for mm2_s in [2.8, 3.0, 3.3, 3.7, 4.1, 4.5, 5.0] {
        let liquid = Liquid { density_kg_m3: 832.0, viscosity_mm2_s: mm2_s };
        let one = pipe.loss(liquid, 4.0).unwrap().total_pa() / 1e5;
        assert!(one <= hump.drop_bar() * 1.001, "{mm2_s}");
        assert!(one >= hump.least_drop_bar().unwrap() * 0.999, "{mm2_s}");
    }
}

#[test]
fn a_cold_start_takes_many_times_as_much() {
    let warm = flow(&carrying(service(Fluid::Atf, 6.0, 90.0), vec![])).unwrap();
    let cold = warm.cold_start.expect("an oil");
    let at_0 = flow(&carrying(service(Fluid::Atf, 6.0, 0.0), vec![])).unwrap();
    assert_eq!((cold.celsius, cold.loss), (0.0, at_0.loss));
    assert_eq!(at_0.cold_start, None);
    assert!(cold.drop_bar() > 5.0 * warm.drop_bar());
    assert_eq!(flow(&carrying(water(), vec![])).unwrap().cold_start, None);
}

/// Issue 13, 1.8: a cold oil does not take 33 bar from a pump of 5.5, it flows the less. By hand: laminar,
/// `Q = π d⁴ Δp / (128 ρ ν L)`, nothing bends.
#[test]
fn a_cold_start_tells_the_flow_that_the_given_pressure_passes() {
    let at = |bar: Option<f64>, lpm: f64| {
        let service = Service { pressure_bar: bar, ..service(Fluid::Atf, lpm, 90.0) };
        flow(&carrying(service, vec![])).unwrap().cold_start.unwrap()
    };
    let cold = at(Some(0.4), 60.0);
    let passed = cold.passed.expect("too little for 60 L/min");
    let nu = d341_mm2_s((40.0, 34.0), [(40.0, 34.0), (100.0, 7.3)], 0.0) * 1e-6;
    let rho = 865.0 + 0.65 * 20.0;
    let by_hand = std::f64::consts::PI * 0.008_f64.powi(4) * 0.4e5 / (128.0 * rho * nu * 0.6) * 6e4;
    for lpm in passed.flow_lpm {
        assert!((lpm / by_hand - 1.0).abs() < 1e-6, "{lpm} {by_hand}");
    }
    assert!(by_hand < 60.0 && cold.drop_bar() > 0.4);
    // The flow that is told loses the pressure that is given.
    let again = at(None, passed.flow_lpm[0]);
    assert!((again.drop_bar() / 0.4 - 1.0).abs() < 1e-6 && again.passed.is_none());
    // Enough pressure, none given, or suction: what the flow takes.
    for (bar, lpm) in [(Some(1000.0), 60.0), (None, 60.0), (Some(-0.2), 60.0)] {
        assert_eq!(at(bar, lpm).passed, None);
    }
    // Oils of one name: from the thickest to the thinnest.
    let service = Service { pressure_bar: Some(0.5), ..service(Fluid::EngineOil, 60.0, 90.0) };
    let bay = carrying(service, vec![corner(300.0, 200.0, 0.0)]);
    let cold = flow(&bay).unwrap().cold_start.unwrap();
    let [least, most] = cold.passed.unwrap().flow_lpm;
    assert!(least < most && most < 60.0);
    let words = cold_start_in_words(&cold, LengthUnit::Mm);
    assert!(
        words.starts_with("cold, 0 °C: 0.5 bar passes ") && words.ends_with(" L/min"),
        "{words}"
    );
    let told = report(&bay)["runs"][0]["flow"]["cold_start"]["passes_lpm"].clone();
    assert_eq!(told, serde_json::json!([least, most]));
    let sheet = Sheet::new(&common::answer(&bay), SheetInfo::default());
    let csv = String::from_utf8(Format::Html.write(&sheet, Paper::A4).unwrap()).unwrap();
    assert!(csv.contains(&words), "{words}");
}

#[test]
fn the_sheet_tells_it_in_every_format() {
    let sheet_in = |unit: LengthUnit, service: Service| {
        let bay = Bay { show_units: unit, ..carrying(service, vec![]) };
        let sheet = Sheet::new(&common::answer(&bay), SheetInfo::default());
        let text =
            |format: Format| String::from_utf8(format.write(&sheet, Paper::A4).unwrap()).unwrap();
        [text(Format::Html), text(Format::Csv), text(Format::Json)]
    };
    let sheet = |service: Service| sheet_in(LengthUnit::Mm, service);
    let [html, ..] = sheet_in(LengthUnit::Inch, water());
    assert!(html.contains("1.5 psi lost at 2.64 US gal/min: 11 ft/s, Re 26000, turbulent"));
    let drop = "0.1 bar lost at 10 L/min: 3.3 m/s, Re 26000, turbulent";
    for text in sheet(water()) {
        for words in [drop, "Churchill 1977, bends Rennels 2012", "end fittings", "CoolProp 8.0.0"]
        {
            assert!(text.contains(words), "{words}");
        }
    }
    for text in sheet(service(Fluid::Air, 10.0, 20.0)) {
        assert!(text.contains("pressure drop at 10 L/min unknown"), "{text}");
        assert!(text.contains("air changes its density on the way"));
    }
    let [html, csv, _] = sheet(Service::default());
    assert!(!html.contains("Flow, calculated") && csv.contains(",flow_lpm,velocity_m_s,"));
}

fn any_pipe() -> impl Strategy<Value = (f64, f64, f64, Vec<PipeBend>)> {
    let bend = (0.0..std::f64::consts::PI, 1.0..200.0_f64);
    let bends = proptest::collection::vec(bend, 0..6);
    (0.5..80.0_f64, 1.0..20_000.0_f64, 0.0..0.05_f64, bends).prop_map(
        |(bore_mm, length_mm, roughness_mm, bends)| {
            let bends = bends
                .into_iter()
                .map(|(angle_rad, ratio)| PipeBend { angle_rad, radius_mm: ratio * bore_mm });
            (bore_mm, length_mm, roughness_mm, bends.collect())
        },
    )
}

proptest! {
    #[test]
    fn more_flow_takes_more(
        (bore_mm, length_mm, roughness_mm, bends) in any_pipe(),
        density_kg_m3 in 500.0..1200.0_f64,
        viscosity_mm2_s in 0.2..3000.0_f64,
        flow in 1e-6..300.0_f64,
        more in 1.0..3.0_f64,
    ) {
        let pipe = Pipe { bore_mm, length_mm, roughness_mm, bends: &bends };
        let liquid = Liquid { density_kg_m3, viscosity_mm2_s };
        let at = |flow: f64| pipe.loss(liquid, flow).unwrap();
        let (less, most) = (at(flow), at(flow * more));
        prop_assert!(most.total_pa() >= less.total_pa() * (1.0 - 1e-12));
        prop_assert!(most.friction_pa >= less.friction_pa * (1.0 - 1e-12));
        prop_assert!(less.bends_pa >= 0.0 && less.friction_pa > 0.0);
        // The way it flows makes no difference.
        prop_assert_eq!(at(-flow), less);
        // A hair more flow takes a hair more pressure, through every change of regime.
        let hair = at(flow * (1.0 + 1e-9)).total_pa() / less.total_pa() - 1.0;
        prop_assert!(hair.abs() < 1e-7, "{}", hair);
    }

    #[test]
    fn a_longer_or_rougher_or_narrower_hose_takes_more(
        (bore_mm, length_mm, roughness_mm, _) in any_pipe(),
        viscosity_mm2_s in 0.2..3000.0_f64,
        flow in 1e-3..300.0_f64,
    ) {
        let liquid = Liquid { density_kg_m3: 850.0, viscosity_mm2_s };
        let pipe = Pipe { bore_mm, length_mm, roughness_mm, bends: &[] };
        let drop = |pipe: Pipe<'_>| pipe.loss(liquid, flow).unwrap().total_pa();
        let longer = drop(Pipe { length_mm: 2.0 * length_mm, ..pipe });
        let rougher = drop(Pipe { roughness_mm: roughness_mm + 0.01, ..pipe });
        let narrower = drop(Pipe { bore_mm: 0.5 * bore_mm, ..pipe });
        let own = drop(pipe);
        prop_assert!(longer > own && narrower > own);
        prop_assert!(rougher >= own * (1.0 - 1e-12));
    }

    /// Whatever is finite: an answer that is finite, or none.
    #[test]
    fn no_input_leaves_the_numbers(
        bore_mm in prop::num::f64::POSITIVE | prop::num::f64::SUBNORMAL,
        length_mm in prop::num::f64::POSITIVE,
        roughness_mm in prop::num::f64::POSITIVE | prop::num::f64::ZERO,
        density_kg_m3 in prop::num::f64::POSITIVE,
        viscosity_mm2_s in prop::num::f64::POSITIVE | prop::num::f64::SUBNORMAL,
        flow in prop::num::f64::NORMAL | prop::num::f64::ZERO,
        angle_rad in 0.0..std::f64::consts::PI,
        ratio in 1.0..1e9_f64,
    ) {
        let bore_mm = bore_mm.abs();
        let bends = [PipeBend { angle_rad, radius_mm: ratio * bore_mm }];
        let pipe = Pipe { bore_mm, length_mm, roughness_mm: roughness_mm.abs(), bends: &bends };
        let liquid = Liquid { density_kg_m3, viscosity_mm2_s: viscosity_mm2_s.abs() };
        if let Some(loss) = pipe.loss(liquid, flow) {
            let all = [loss.velocity_m_s, loss.reynolds, loss.friction_pa, loss.bends_pa];
            prop_assert!(all.iter().all(|part| part.is_finite() && *part >= 0.0), "{:?}", loss);
        }
    }

    #[test]
    fn friction_and_bends_are_numbers(re in 0.0..1e12_f64, rough in 0.0..0.1_f64, angle in 0.0..3.15_f64) {
        let f = friction_factor(re, rough);
        prop_assert!(f.is_finite() && f > 0.0);
        let loss = bend_loss(f, angle.min(std::f64::consts::PI), 1.0 + re.min(1e6));
        prop_assert!(loss.arc.is_finite() && loss.beyond.is_finite() && loss.beyond >= 0.0);
    }
}

#[test]
fn standing_still_takes_nothing() {
    let pipe = Pipe { bore_mm: 8.0, length_mm: 600.0, roughness_mm: 0.0015, bends: &[] };
    let loss = pipe.loss(Liquid { density_kg_m3: 1000.0, viscosity_mm2_s: 1.0 }, 0.0).unwrap();
    assert_eq!((loss.velocity_m_s, loss.reynolds, loss.total_pa()), (0.0, 0.0, 0.0));
}

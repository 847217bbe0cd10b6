//! A hose, or several.

use eframe::egui::{Id, Ui};

use super::send::send;
use super::{Scene, bench_record, from_library, run_end, sleeves};
use crate::app::actions::Action;
use crate::app::canvas::thing::Thing;
use crate::app::widgets::{Field, Form, Range, all};
use crate::app::words;
use crate::document::Command;
use crate::engine::{RunSolution, hose_kind};
use crate::model::{Bay, Fluid, HoseKind, Routing, Run, Service, Side, StockEntry, catalogue};
use crate::report::flow::lone_figure;
use crate::units::{Derived, Length, LengthUnit, Measure};

const NAME: Field<'_> = Field::new("Name", "What the hose is called on the sheet", "Rename hose");
const ID: Field<'_> = Field::new("Id", "What the file calls it", "Change id of hose");
const HOSE: Field<'_> =
    Field::new("Hose", "The kind of hose, from your stock and the catalogue", "Change hose");
const SIZE: Field<'_> = Field::new("Size", "The sizes this hose comes in", "Change size of hose");
const RADIUS: Field<'_> = Field::new(
    "Bend radius",
    "Centre-line radius at every corner; empty: the hose's minimum bend radius",
    "Change bend radius",
);
const SLACK: Field<'_> = Field::new(
    "Slack",
    "Added to the centre line, so that the hose is never pulled tight",
    "Change slack",
);
const EACH: Field<'_> = Field::new(
    "By free length",
    "Give the slack of each length between sockets and clamps; so does pulling a clamp along the bench strip",
    "Give slack by free length",
);
const SHARED: Field<'_> = Field::new(
    "Share slack again",
    "Let the program put the slack where the hose bends",
    "Share slack again",
);
const OUTSIDE: Field<'_> = Field::new(
    "OD",
    "Outside diameter, measured on your hose; it overrides the catalogue",
    "Change OD",
);
const DRY_FIT: Field<'_> = Field::new(
    "Dry fit",
    "The length you found by laying the real hose in place; compared with the calculated one",
    "Change dry fit",
);
const FLUID: Field<'_> = Field::new("Fluid", "The fluid in the hose", "Change fluid");
/// A fluid that is not in the list, until it is named.
const ANOTHER_FLUID: &str = "another fluid";
const OWN_FLUID: Field<'_> = Field::new(
    "Its name",
    "A fluid that is not in the list; what depends on it is then not checked",
    "Change fluid",
)
.named("Own fluid");
const FLOW: Field<'_> = Field::new(
    "Flow",
    "How much flows; with fluid and temperature given, the card shows the pressure drop",
    "Change flow",
);
const PRESSURE: Field<'_> = Field::new(
    "Pressure",
    "Working pressure, gauge; hose gets shorter under pressure",
    "Change pressure",
);
const TEMPERATURE: Field<'_> =
    Field::new("Temperature", "Working temperature of the fluid", "Change temperature");
const DENSITY: Field<'_> = Field::new(
    "Density",
    "Density of your own fluid; with its viscosity it replaces the listed figures",
    "Change density",
)
.named("Density of your own fluid");
const VISCOSITY: Field<'_> = Field::new(
    "Viscosity",
    "Kinematic viscosity of your own fluid at its working temperature; 1 mm²/s is 1 cSt",
    "Change viscosity",
)
.named("Viscosity of your own fluid");
const LINER: Field<'_> = Field::new(
    "Liner",
    "Whether the liner of your hose conducts static charge: ask its manufacturer",
    "Change liner",
);
const FLEXING: Field<'_> =
    Field::new("Flexes", "Whether the hose moves in service", "Change flexing");
const DRAINS: Field<'_> = Field::new(
    "Drains",
    "Whether it drains by gravity: then it must fall all along, also where the bay tilts",
    "Change draining",
);

pub(super) fn show(ui: &mut Ui, scene: &Scene<'_>, ids: &[String], actions: &mut Vec<Action>) {
    let bay = scene.bay;
    let Some(routing) = bay.routings.get(scene.routing) else { return };
    let place = |id: &String| routing.runs.iter().position(|run| run.id == *id);
    let Some(places) = ids.iter().map(place).collect::<Option<Vec<usize>>>() else { return };
    let mut runs: Vec<Run> = places.iter().map(|place| routing.runs[*place].clone()).collect();
    let solved = match places[..] {
        [place] => scene.solved.answer.solution.run(place),
        _ => None,
    };
    let mut form = Form::new(ui, Id::unique(("hose", &routing.id, ids)), bay.show_units);
    let summary = hose_summary(bay, &runs, solved);
    form.section("Hose", &summary, true, |form| {
        if runs.len() == 1 {
            form.text(&NAME, all(&mut runs, |run| &mut run.name));
        }
        hose(form, scene, &mut runs, actions);
        laying(form, bay, &mut runs, solved);
        if runs.len() == 1 {
            form.text(&ID, all(&mut runs, |run| &mut run.id));
        }
    });
    if let [run] = &mut runs[..] {
        run_end::section(&mut form, scene, run, Side::A, solved, actions);
        run_end::section(&mut form, scene, run, Side::B, solved, actions);
    }
    let summary = service_summary(&runs, form.units());
    form.section("Service conditions", &summary, false, |form| {
        service_as(form, &mut runs, routing);
        service(form, &mut runs.iter_mut().map(|run| &mut run.service).collect::<Vec<_>>());
    });
    if let [run] = &mut runs[..] {
        sleeves::section(&mut form, run, solved);
        bench_record::section(&mut form, bay, run, solved);
    }
    let renamed = match (ids, &runs[..]) {
        ([old], [run]) if *old != run.id => Some(Thing::Hose(run.id.clone())),
        _ => None,
    };
    let copies = from_library::copies(bay, scene.library, &runs);
    let set = |label| {
        let set = |(id, run): (&String, Run)| Command::SetRun {
            routing: routing.id.clone(),
            id: id.clone(),
            run: Box::new(run),
            label,
        };
        copies.into_iter().chain(ids.iter().zip(runs).map(set)).collect()
    };
    if send(&mut form, bay, actions, set) {
        actions.extend(renamed.map(Action::Select));
    }
}

fn hose_summary(bay: &Bay, runs: &[Run], solved: Option<&RunSolution>) -> String {
    let [run] = runs else { return String::new() };
    let kind = hose_kind(bay, &run.hose).map_or(run.hose.as_str(), |kind| kind.name.as_str());
    let slack = solved.map_or_else(String::new, |solved| {
        format!("slack {}, ", Measure::Percent.show(solved.slack_pct()))
    });
    format!("{}, {slack}{kind}", words::dash(run.dash))
}

/// The kind and the size, of the bay's stock first.
fn hose(form: &mut Form<'_>, scene: &Scene<'_>, runs: &mut [Run], actions: &mut Vec<Action>) {
    let bay = scene.bay;
    let own = bay.stock.hoses.iter();
    let built_in = catalogue::hoses().iter();
    let built_in = built_in.filter(|kind| bay.stock.hoses.iter().all(|own| own.id != kind.id));
    let mut kinds: Vec<(String, String)> =
        own.chain(built_in).map(|kind| (kind.id.clone(), kind.name.clone())).collect();
    kinds.extend(from_library::hoses(bay, scene.library));
    form.choice(&HOSE, &kinds, all(runs, |run| &mut run.hose));
    let common = runs.first().filter(|first| runs.iter().all(|run| run.hose == first.hose));
    let Some(id) = common.map(|run| run.hose.clone()) else { return };
    from_library::difference(form, scene, StockEntry::hose(scene.library, &id), actions);
    let Some(kind) = from_library::hose(bay, scene.library, &id) else { return };
    for run in runs.iter_mut() {
        run.dash = nearest_size(kind, run.dash);
    }
    let sizes: Vec<(u32, String)> =
        kind.sizes.iter().map(|size| (size.dash, words::dash(size.dash))).collect();
    form.choice(&SIZE, &sizes, all(runs, |run| &mut run.dash));
}

fn common_kind<'a>(bay: &'a Bay, runs: &[Run]) -> Option<&'a HoseKind> {
    let first = &runs.first()?.hose;
    let common = runs.iter().all(|run| run.hose == *first);
    common.then(|| hose_kind(bay, first)).flatten()
}

/// The size itself where the hose comes in it; a hose that was just selected may not.
fn nearest_size(kind: &HoseKind, dash: u32) -> u32 {
    let nearest = kind.sizes.iter().map(|size| size.dash).min_by_key(|size| size.abs_diff(dash));
    nearest.unwrap_or(dash)
}

/// In per cent, or of each free length.
fn slack(form: &mut Form<'_>, runs: &mut [Run], solved: Option<&RunSolution>) {
    if let ([run], Some(solved)) = (&mut *runs, solved) {
        if run.slack_mm.is_some() {
            slack_of_each(form, run, solved);
            return;
        }
        if solved.spans.len() > 1 && form.button("By free length", &EACH) {
            let mut each = vec![0.0; run.free_lengths()];
            for span in &solved.spans {
                if let Some(slack) = each.get_mut(span.place) {
                    *slack = span.slack_mm;
                }
            }
            run.slack_mm = Some(each);
            return;
        }
    }
    let usual = format!("usual: {}", Run::DEFAULT_SLACK_PCT);
    let slack = all(runs, |r| &mut r.slack_pct);
    form.maybe(&SLACK, Measure::Percent, Range::NotNegative, &usual, slack);
}

fn slack_of_each(form: &mut Form<'_>, run: &mut Run, solved: &RunSolution) {
    let length = form.length();
    let clamps = run.free_lengths() - 1;
    for (place, slack) in run.slack_mm.iter_mut().flatten().enumerate() {
        let end = |clamp: usize, end: &str| match clamp {
            0 => end.to_owned(),
            clamp => format!("clamp {clamp}"),
        };
        let to = if place == clamps { "B".to_owned() } else { end(place + 1, "B") };
        let name = format!("Slack {} to {to}", end(place, "A"));
        let field = Field::new(&name, "More hose than drawn in this free length", "Change slack");
        let mut value = Some(*slack);
        form.maybe(&field, length, Range::NotNegative, "0", vec![&mut value]);
        *slack = value.unwrap_or_default();
    }
    if form.button("Share slack again", &SHARED) {
        run.slack_mm = None;
        run.slack_pct = Some(solved.slack_pct());
    }
}

/// How it is laid.
fn laying(form: &mut Form<'_>, bay: &Bay, runs: &mut [Run], solved: Option<&RunSolution>) {
    let length = form.length();
    let hint = |mm: Option<f64>, word: &str| {
        mm.map(|mm| format!("{word} {}", Length::from_mm(mm).show(bay.show_units)))
            .unwrap_or_default()
    };
    let limit = hint(solved.map(|solved| solved.radius_limit_mm), "minimum:");
    form.maybe(&RADIUS, length, Range::NotNegative, &limit, all(runs, |r| &mut r.radius_mm));
    slack(form, runs, solved);
    let kind = common_kind(bay, runs);
    let size = runs.first().and_then(|run| kind?.size(run.dash));
    let listed = hint(size.and_then(|size| size.outside_mm), "listed:");
    form.maybe(&OUTSIDE, length, Range::Positive, &listed, all(runs, |r| &mut r.outside_mm));
    if let (Some(kind), true) = (kind, runs.iter().all(|run| run.outside_mm.is_none())) {
        form.remark(&listed_source(
            &kind.sources.outside,
            size.is_some_and(|s| s.outside_mm.is_some()),
        ));
    }
    // Asked where a spark matters.
    if runs.iter().all(|run| run.service.fluid.as_ref().is_some_and(Fluid::is_fuel)) {
        let listed = match kind.and_then(|kind| kind.conductive_liner) {
            Some(true) => "listed: conducts",
            Some(false) => "listed: does not conduct",
            None => "not known",
        };
        let words = [(None, listed), (Some(true), "conducts"), (Some(false), "does not conduct")];
        let choices = words.map(|(value, word)| (value, word.to_owned()));
        form.choice(&LINER, &choices, all(runs, |run| &mut run.conductive_liner));
    }
    // Measured on one hose: it is no figure of several.
    if runs.len() == 1 {
        let measured = all(runs, |r| &mut r.dry_fit_mm);
        form.maybe(&DRY_FIT, length, Range::NotNegative, "not done", measured);
    }
}

fn listed_source(source: &crate::model::Source, is_known: bool) -> String {
    if is_known { source.mark.word().to_owned() } else { "not listed: measure yours".to_owned() }
}

fn service_summary(runs: &[Run], units: LengthUnit) -> String {
    let [run] = runs else { return String::new() };
    let fluid = run.service.fluid.as_ref().map(|fluid| fluid.name_in(units));
    let pressure = run.service.pressure_bar.map(|bar| Measure::Pressure(units.into()).show(bar));
    let parts: Vec<String> = fluid.into_iter().chain(pressure).collect();
    if parts.is_empty() { "not given".to_owned() } else { parts.join(", ") }
}

/// As many other hoses are offered to take the service conditions from.
const MOST_OFFERED: usize = 3;

/// Of hoses that have none yet: those of another hose at one click, each kind once.
fn service_as(form: &mut Form<'_>, runs: &mut [Run], routing: &Routing) {
    let none = Service::default();
    if runs.iter().any(|run| run.service != none) {
        return;
    }
    let mut offered: Vec<&Run> = Vec::new();
    for run in routing.runs.iter().filter(|run| run.service != none) {
        if offered.iter().all(|other| other.service != run.service) {
            offered.push(run);
        }
    }
    for other in offered.into_iter().take(MOST_OFFERED) {
        let text = format!("As {}", other.shown_name());
        let tip = service_summary(std::slice::from_ref(other), form.units());
        let field = Field::new(&text, &tip, "Copy service conditions");
        if form.button(&text, &field) {
            for run in &mut *runs {
                run.service.clone_from(&other.service);
            }
        }
    }
}

fn service(form: &mut Form<'_>, services: &mut [&mut Service]) {
    fluid(form, services);
    let pressure = form.units().into();
    let not_given = "not checked";
    let flow = Measure::Flow(form.units().into());
    let temperature = Measure::Temperature(form.units().into());
    form.maybe(&FLOW, flow, Range::Any, "not given", parts(services, |d| &mut d.flow_lpm));
    form.maybe(
        &PRESSURE,
        Measure::Pressure(pressure),
        Range::Any,
        not_given,
        parts(services, |d| &mut d.pressure_bar),
    );
    form.maybe(
        &TEMPERATURE,
        temperature,
        Range::Any,
        not_given,
        parts(services, |d| &mut d.temperature_c),
    );
    own_fluid(form, services);
    let words = [(None, "not given"), (Some(false), "no"), (Some(true), "yes")];
    let choices = words.map(|(value, word)| (value, word.to_owned()));
    form.choice(&FLEXING, &choices, parts(services, |d| &mut d.flexing));
    form.choice(&DRAINS, &choices, parts(services, |d| &mut d.drains));
}

/// What takes the place of the listed figures.
fn own_fluid(form: &mut Form<'_>, services: &mut [&mut Service]) {
    const LISTED: &str = "as listed";
    let [density, viscosity] =
        [Derived::Density, Derived::Viscosity].map(|of| Measure::Derived(of, form.units()));
    let densities = parts(services, |service| &mut service.density_kg_m3);
    form.maybe(&DENSITY, density, Range::Positive, LISTED, densities);
    let viscosities = parts(services, |service| &mut service.viscosity_mm2_s);
    form.maybe(&VISCOSITY, viscosity, Range::Positive, LISTED, viscosities);
    if let [service] = services
        && let Some(lone) = lone_figure(service)
    {
        form.remark(lone);
    }
}

fn parts<'a, T>(
    services: &'a mut [&mut Service],
    part: impl Fn(&'a mut Service) -> &'a mut T,
) -> Vec<&'a mut T> {
    services.iter_mut().map(|service| part(service)).collect()
}

fn fluid(form: &mut Form<'_>, services: &mut [&mut Service]) {
    let known = Fluid::KNOWN.map(|(fluid, _)| {
        let name = fluid.name_in(form.units());
        (Some(fluid), name)
    });
    let own = services.first().and_then(|service| service.fluid.clone());
    let other = Some(Fluid::Other(ANOTHER_FLUID.to_owned()));
    let mut choices =
        vec![(None, "not given".to_owned()), (other.clone(), "another fluid…".to_owned())];
    choices.extend(known);
    if let Some(Fluid::Other(word)) = &own
        && own != other
    {
        choices.push((own.clone(), word.clone()));
    }
    form.choice(&FLUID, &choices, parts(services, |service| &mut service.fluid));
    // Asked of the fluid as it is now, so that no row appears while another is filled in.
    let is_own = |fluid: &Option<Fluid>| matches!(fluid, Some(Fluid::Other(_)));
    if !services.iter().all(|service| is_own(&service.fluid)) {
        return;
    }
    let word =
        |service: &Service| service.fluid.as_ref().map_or("", |fluid| fluid.word()).to_owned();
    let before: Vec<String> = services.iter().map(|service| word(service)).collect();
    let mut after = before.clone();
    form.text(&OWN_FLUID, after.iter_mut().collect());
    for ((service, before), after) in services.iter_mut().zip(before).zip(after) {
        if before != after {
            service.fluid = (!after.is_empty()).then(|| Fluid::from_word(&after));
        }
    }
}

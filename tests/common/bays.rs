//! Random bays, all valid: every reference leads somewhere, every number is in its range. They use
//! every feature of the file but meshes; what they draw is nonsense, yet has to be answered.

#![allow(dead_code, reason = "each test file uses its own part of this one")]

#[path = "records.rs"]
mod records;

use std::collections::BTreeMap;

use glam::{DVec2, DVec3};
use hosewright::document::file::stock_source;
use hosewright::model::{
    Attachment, Background, BackgroundEntry, Bay, BenchRecord, Clamp, ClampSize, Construction,
    Content, Corner, EndKind, EndSize, Extra, Fluid, HoseKind, HoseSize, HoseSources, Motion,
    MovingGroup, Nature, Obstacle, Plane, Port, Routing, Run, RunEnd, Service, Shape, ShelfLength,
    Sleeve, Stock, Tilt, Via,
};
use hosewright::units::{LengthUnit, is_plain};
use proptest::collection::vec;
use proptest::option::of;
use proptest::prelude::*;
use proptest::sample::{Index, select};
use serde_json::{Map, Number, Value};

const DASHES: [u32; 8] = [3, 4, 6, 8, 10, 12, 16, 32];
const ANGLES: [f64; 8] = [0.0, 30.0, 45.0, 60.0, 90.0, 120.0, 150.0, 180.0];

/// A valid bay of up to two routings with up to four runs each.
pub(crate) fn any_bay() -> impl Strategy<Value = Bay> {
    let heads =
        (text(), text(), select(vec![LengthUnit::Inch, LengthUnit::Mm]), of(any_tilt().boxed()));
    let things = (
        vec(any_group().boxed(), 0..3),
        vec(any_port().boxed(), 1..7),
        vec(any_obstacle().boxed(), 0..4),
        vec(any_background().boxed(), 0..3),
    );
    let bought = (vec(any_length(), 0..3), vec(any_clamp(), 0..3));
    let stock = (vec(any_hose().boxed(), 1..4), vec(any_end().boxed(), 1..3), bought, extra());
    let routings =
        vec((text(), vec(any_run().boxed(), 0..5), of(length(0.0, 20.0)), extra()), 1..3);
    (heads, things, stock, routings, extra()).prop_map(
        |(heads, (groups, ports, obstacles, backgrounds), stock, routings, extra)| {
            let (title, notes, show_units, tilt) = heads;
            let bay = Bay { title, notes, show_units, tilt, extra, ..Bay::default() };
            let mut bay = Bay { backgrounds, ..bay };
            bay.backgrounds = numbered_backgrounds(bay.backgrounds);
            bay.groups = numbered(groups, |id, group| MovingGroup { id, ..group });
            bay.obstacles = numbered(obstacles, |id, (obstacle, group)| {
                let group = group.and_then(|index| id_of(&bay.groups, index, |group| &group.id));
                Obstacle { id, group, ..obstacle }
            });
            bay.ports = numbered(ports, |id, (port, group, on)| {
                let group = group.and_then(|index| id_of(&bay.groups, index, |group| &group.id));
                let on = on.and_then(|index| id_of(&bay.obstacles, index, |obstacle| &obstacle.id));
                Port { id, group, on, ..port }
            });
            let (hoses, ends, (lengths, clamps), extra) = stock;
            bay.stock = Stock {
                hoses: numbered(hoses, |id, hose| HoseKind { id, ..hose }),
                ends: numbered(ends, |id, end| EndKind { id, ..end }),
                extra,
                lengths: Vec::new(),
                clamps,
            };
            for (length, hose, size) in lengths {
                let hose = hose.get(&bay.stock.hoses);
                let (dash, hose) = (size.get(&hose.sizes).dash, hose.id.clone());
                bay.stock.lengths.push(ShelfLength { hose, dash, ..length });
            }
            let routings = numbered(routings, |id, (name, runs, hose_clearance_mm, extra)| {
                let runs = numbered(runs, |id, plan| plan.laid(id, &mut bay));
                Routing { id, name, runs, hose_clearance_mm, extra }
            });
            bay.routings = routings;
            bay
        },
    )
}

/// Gives each its id: unique, and not too plain.
fn numbered<T, U>(items: Vec<T>, mut named: impl FnMut(String, T) -> U) -> Vec<U> {
    const TAILS: [&str; 4] = ["", " of the pump", "/~\"\\", "-Öl"];
    let name = |number: usize| format!("{number}{}", TAILS[number % TAILS.len()]);
    items.into_iter().enumerate().map(|(i, item)| named(name(i), item)).collect()
}

fn numbered_backgrounds(entries: Vec<BackgroundEntry>) -> Vec<BackgroundEntry> {
    numbered(entries, |id, entry| match entry {
        BackgroundEntry::Known(known) => {
            BackgroundEntry::Known(Box::new(Background { id, ..*known }))
        }
        other @ BackgroundEntry::Other(_) => other,
    })
}

/// A photo, a photo straightened, an outline, or something that no version knows.
fn any_background() -> impl Strategy<Value = BackgroundEntry> {
    let point = || (length(-1500.0, 1500.0), length(-1500.0, 1500.0)).prop_map(DVec2::from);
    let size = || (length(1.0, 9000.0), length(1.0, 9000.0)).prop_map(DVec2::from);
    let pull = || (length(-9.0, 9.0), length(-9.0, 9.0)).prop_map(DVec2::from);
    let corners = [pull(), pull(), pull(), pull()].prop_map(|pulls| {
        let square = [[10.0, 90.0], [90.0, 90.0], [90.0, 10.0], [10.0, 10.0]];
        std::array::from_fn(|i| DVec2::from(square[i]) + pulls[i])
    });
    let content = prop_oneof![
        (size(), length(0.01, 90.0))
            .prop_map(|(size_px, mm_per_pixel)| Content::Photo { size_px, mm_per_pixel }),
        (size(), corners, size()).prop_map(|(size_px, corners_px, rectangle)| {
            Content::Straightened { size_px, corners_px, rectangle }
        }),
        length(0.01, 1000.0).prop_map(|scale| Content::Outline { scale }),
    ];
    let plane = select(Plane::ALL.map(|(plane, _)| plane).to_vec());
    let looks = (length(0.0, 1.0), any::<bool>(), any::<bool>());
    let names = (text(), "[a-z]{1,8}(/[a-z]{1,8})?[.]dxf", extra());
    let place = (plane, point(), length(-360.0, 360.0));
    let known = (names, place, looks, content).prop_map(|(names, place, looks, content)| {
        let ((name, file, extra), (plane, origin, rotation_deg)) = (names, place);
        let (opacity, locked, hidden) = looks;
        let id = String::new();
        BackgroundEntry::Known(Box::new(Background {
            id,
            name,
            plane,
            file,
            opacity,
            locked,
            hidden,
            origin,
            rotation_deg,
            content,
            extra,
        }))
    });
    prop_oneof![4 => known, 1 => any_json().prop_map(BackgroundEntry::Other)]
}

fn id_of<T>(items: &[T], index: Index, id: impl Fn(&T) -> &String) -> Option<String> {
    (!items.is_empty()).then(|| id(index.get(items)).clone())
}

/// A name: often nothing.
pub(crate) fn text() -> impl Strategy<Value = String> {
    // Boxed: it stands in every part of a bay, and an unoptimised test has a small stack.
    any_text().prop_map(|text| text.chars().filter(|c| is_plain(*c)).collect::<String>()).boxed()
}

/// Any text: often nothing.
fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![Just(String::new()), "[a-z]{1,8}( [a-z]{1,8})?", "\\PC{0,12}", "[\\x00-\\x7f]{0,6}"]
}

/// A number between two bounds: whole, to a tenth, or with all its digits.
pub(crate) fn length(least: f64, greatest: f64) -> impl Strategy<Value = f64> {
    let any = least..=greatest;
    prop_oneof![
        any.clone().prop_map(move |x| x.round().clamp(least, greatest)),
        any.clone().prop_map(move |x| ((x * 10.0).round() / 10.0).clamp(least, greatest)),
        any
    ]
}

/// A place in an engine bay.
pub(crate) fn point() -> impl Strategy<Value = DVec3> {
    let coordinate = || length(-1500.0, 1500.0);
    [coordinate(), coordinate(), coordinate()].prop_map(DVec3::from)
}

/// A direction of any length but zero, often along an axis.
pub(crate) fn direction() -> impl Strategy<Value = DVec3> {
    let axes = [DVec3::X, DVec3::Y, DVec3::Z].map(|axis| [axis, -axis]).concat();
    let part = || length(-3.0, 3.0);
    let odd = [part(), part(), part()].prop_map(DVec3::from);
    let odd = odd.prop_filter("a direction has a length", |d| *d != DVec3::ZERO);
    prop_oneof![select(axes), odd]
}

/// Keys that no version of the file knows.
pub(crate) fn extra() -> impl Strategy<Value = Extra> {
    let some = vec(any_json(), 1..4).prop_map(|values| {
        // Out of the alphabet's order, so that an order lost is seen.
        let key = |i: usize| format!("x-{}/{i}", 9 - i);
        values.into_iter().enumerate().map(|(i, value)| (key(i), value)).collect()
    });
    prop_oneof![4 => Just(Extra::new()), 1 => some]
}

/// Any JSON value, a few levels deep.
pub(crate) fn any_json() -> impl Strategy<Value = Value> {
    let float = any::<f64>().prop_filter_map("JSON has no infinity", Number::from_f64);
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<u64>().prop_map(Value::from),
        float.prop_map(Value::Number),
        any_text().prop_map(Value::from),
    ];
    leaf.prop_recursive(3, 12, 4, |inner| {
        let members = vec((any_text(), inner.clone()), 0..4);
        prop_oneof![
            vec(inner, 0..4).prop_map(Value::Array),
            members.prop_map(|members| Value::Object(members.into_iter().collect::<Map<_, _>>())),
        ]
    })
}

fn any_tilt() -> impl Strategy<Value = Tilt> {
    let span = || [length(-30.0, 0.0), length(0.0, 30.0)];
    (span(), span(), extra()).prop_map(|(pitch_deg, roll_deg, extra)| Tilt {
        pitch_deg,
        roll_deg,
        extra,
    })
}

fn any_group() -> impl Strategy<Value = MovingGroup> {
    (text(), vec(any_motion(), 0..3), extra()).prop_map(|(name, moves, extra)| MovingGroup {
        id: String::new(),
        name,
        moves,
        extra,
    })
}

fn any_motion() -> impl Strategy<Value = Motion> {
    let angle = || length(-10.0, 10.0);
    let pivot = (point(), direction(), angle(), angle(), extra());
    let shift = (point(), point(), extra());
    prop_oneof![
        pivot.prop_map(|(about, axis, from_deg, to_deg, extra)| {
            Motion::Pivot { about, axis, from_deg, to_deg, extra }
        }),
        shift.prop_map(|(from, to, extra)| Motion::Slide { from, to, extra }),
    ]
}

fn any_port() -> impl Strategy<Value = (Port, Option<Index>, Option<Index>)> {
    let rides = (of(any::<Index>()), of(any::<Index>()));
    (text(), point(), direction(), of(select(&DASHES[..])), extra(), rides).prop_map(
        |(name, at, toward, dash, extra, (group, on))| {
            let id = String::new();
            (
                Port { id, name, at, toward, dash, group: None, on: None, locked: None, extra },
                group,
                on,
            )
        },
    )
}

fn any_obstacle() -> impl Strategy<Value = (Obstacle, Option<Index>)> {
    let natures = Nature::ALL.map(|(nature, _)| nature).to_vec();
    let min_clearance = of(length(0.0, 100.0));
    (text(), select(natures), min_clearance, of(any::<Index>()), any_shape(), extra()).prop_map(
        |(name, nature, min_clearance_mm, rides, shape, extra)| {
            let id = String::new();
            (
                Obstacle {
                    id,
                    name,
                    nature,
                    min_clearance_mm,
                    group: None,
                    shape,
                    locked: None,
                    extra,
                },
                rides,
            )
        },
    )
}

fn any_shape() -> impl Strategy<Value = Shape> {
    let radius = || length(1.0, 200.0);
    prop_oneof![
        (point(), point()).prop_map(|(a, b)| Shape::Box { min: a.min(b), max: a.max(b) }),
        (point(), direction(), length(1.0, 500.0), radius()).prop_map(
            |(from, along, far, radius)| Shape::Cylinder { from, to: from + along * far, radius }
        ),
        (point(), radius()).prop_map(|(at, radius)| Shape::Sphere { at, radius }),
    ]
}

fn construction() -> impl Strategy<Value = Construction> {
    let words = ["ptfe-braid", "rubber-braid", "push-on", "corrugated steel"];
    select(words.map(Construction::from_word).to_vec())
}

fn span() -> impl Strategy<Value = [f64; 2]> {
    [length(-60.0, 0.0), length(0.0, 250.0)]
}

fn any_hose() -> impl Strategy<Value = HoseKind> {
    let sizes = proptest::sample::subsequence(DASHES.to_vec(), 1..4)
        .prop_flat_map(|dashes| dashes.into_iter().map(any_hose_size).collect::<Vec<_>>());
    let liner = (of(text()), of(any::<bool>()));
    let change = of([length(-6.0, 0.0), length(0.0, 4.0)]);
    let ranges = (of(span()), change, of(any::<bool>()));
    (text(), of(text()), construction(), liner, ranges, sizes, extra()).prop_map(
        |(name, maker, construction, (liner, conductive_liner), ranges, sizes, extra)| {
            let (temperature_c, length_change_pct, bend_to_centre) = ranges;
            HoseKind {
                id: String::new(),
                name,
                maker,
                construction,
                liner,
                conductive_liner,
                temperature_c,
                length_change_pct,
                bend_to_centre,
                sizes,
                sources: HoseSources::all(stock_source()),
                extra,
            }
        },
    )
}

fn any_hose_size(dash: u32) -> impl Strategy<Value = HoseSize> {
    let across = (of(length(1.0, 30.0)), length(2.0, 50.0), length(5.0, 300.0));
    let bar = || of(length(0.0, 500.0));
    let price = (of(length(0.0, 2.0)), of(length(0.0, 60.0)));
    let swells = (of(length(0.0, 9.0)), of(length(1.0, 400.0)));
    (across, [bar(), bar(), bar()], of(span()), price, swells, extra()).prop_map(
        move |((bore_mm, outside, bend_radius_mm), bars, temperature_c, price, swells, extra)| {
            HoseSize {
                dash,
                bore_mm,
                outside_mm: Some(outside),
                bend_radius_mm,
                max_pressure_bar: bars[0],
                burst_bar: bars[1],
                proof_bar: bars[2],
                expansion_ml_per_m: swells.0,
                expansion_at_bar: swells.1,
                temperature_c,
                mass_kg_per_m: price.0,
                price_per_m: price.1,
                extra,
            }
        },
    )
}

/// Without sizes: the runs add those that they need.
fn any_end() -> impl Strategy<Value = EndKind> {
    let attachment = of(select(Attachment::ALL.map(|(attachment, _)| attachment).to_vec()));
    (text(), of(text()), of(construction()), attachment, extra()).prop_map(
        |(name, maker, for_construction, attachment, extra)| EndKind {
            id: String::new(),
            name,
            maker,
            for_construction,
            attachment,
            sizes: Vec::new(),
            source_straight: stock_source(),
            source_elbow: stock_source(),
            source_socket: stock_source(),
            extra,
        },
    )
}

fn any_clamp() -> impl Strategy<Value = ClampSize> {
    let outside = (length(1.0, 40.0), length(0.0, 9.0)).prop_map(|(least, by)| [least, least + by]);
    (text(), outside, of(length(0.0, 90.0)), extra())
        .prop_map(|(name, outside_mm, price, extra)| ClampSize { name, outside_mm, price, extra })
}

fn any_length() -> impl Strategy<Value = (ShelfLength, Index, Index)> {
    let figures = (length(100.0, 5000.0), of(1..9_u32), of(length(0.0, 90.0)));
    (figures, extra(), any::<Index>(), any::<Index>()).prop_map(
        |((length_mm, count, price), extra, hose, size)| {
            let hose_id = String::new();
            (ShelfLength { hose: hose_id, dash: 0, length_mm, count, price, extra }, hose, size)
        },
    )
}

/// A run whose references are yet to be selected.
#[derive(Debug, Clone)]
struct RunPlan {
    name: String,
    hose: Index,
    size: Index,
    ends: [EndPlan; 2],
    via: Vec<Via>,
    wanted: [Option<f64>; 4],
    sleeves: Vec<Sleeve>,
    bench: BenchRecord,
    service: Service,
    extra: Extra,
}

/// One end of a run whose references are yet to be selected.
#[derive(Debug, Clone)]
struct EndPlan {
    port: Index,
    kind: Index,
    /// Whether an end fitting is named; it is measured whole where not.
    is_named: bool,
    size: EndSize,
    given: RunEnd,
}

fn any_run() -> impl Strategy<Value = RunPlan> {
    let choice = (any::<Index>(), any::<Index>(), [any_run_end(), any_run_end()]);
    let radius = of(length(0.0, 250.0));
    let wanted = (radius, of(length(0.0, 12.0)), of(length(2.0, 50.0)), of(length(0.0, 3000.0)));
    let sleeves = vec(any_sleeve(), 0..3).boxed();
    let kept = (sleeves, records::any_bench().boxed(), any_service().boxed());
    (text(), choice, vec(any_via(), 0..5), wanted, kept, extra()).prop_map(
        |(name, (hose, size, ends), via, wanted, (sleeves, bench, service), extra)| {
            let wanted = wanted.into();
            RunPlan { name, hose, size, ends, via, wanted, sleeves, bench, service, extra }
        },
    )
}

fn any_run_end() -> impl Strategy<Value = EndPlan> {
    let choice = (any::<Index>(), any::<Index>(), any::<bool>());
    let measured = (of(length(0.0, 60.0)), of(length(0.0, 60.0)), of(length(0.0, 40.0)));
    let turn = (select(&ANGLES[..]), length(-360.0, 360.0), of(length(0.0, 300.0)));
    (choice, any_end_size().boxed(), turn, measured, extra()).prop_map(
        |((port, kind, is_named), size, (angle_deg, clock_deg, straight_mm), measured, extra)| {
            let (along_mm, across_mm, socket_mm) = measured;
            let given = RunEnd {
                port: String::new(),
                end: None,
                angle_deg,
                clock_deg,
                straight_mm,
                along_mm,
                across_mm,
                socket_mm,
                extra,
            };
            EndPlan { port, kind, is_named, size: EndSize { angle_deg, ..size }, given }
        },
    )
}

fn any_end_size() -> impl Strategy<Value = EndSize> {
    let size = (length(0.0, 60.0), length(0.0, 60.0), length(5.0, 40.0));
    let nut = of(length(1.0, 80.0));
    let rest = (nut, of(length(0.0, 400.0)), of(length(0.0, 40.0)), of(length(0.0, 1.0)));
    let chart = (of(length(5.0, 40.0)), of(length(5.0, 60.0)), of(any::<bool>()), text());
    (size, rest, chart, extra()).prop_map(|(size, rest, chart, extra)| EndSize {
        dash: 0,
        angle_deg: 0.0,
        along_mm: size.0,
        across_mm: size.1,
        socket_mm: size.2,
        nut_hex_mm: rest.0,
        insertion_mm: chart.0,
        crimp_diameter_mm: chart.1,
        measured: chart.2,
        measured_on: chart.3,
        max_pressure_bar: rest.1,
        price: rest.2,
        mass_kg: rest.3,
        extra,
    })
}

/// A corner or a clamp.
pub(crate) fn any_via() -> impl Strategy<Value = Via> {
    let corner = (point(), of(length(0.0, 300.0)), extra());
    let clamp = (point(), direction(), of(length(0.0, 30.0)), of(length(0.0, 150.0)), extra());
    prop_oneof![
        2 => corner.prop_map(|(at, radius_mm, extra)| {
            Via::Corner(Corner { at, radius_mm, extra })
        }),
        1 => clamp.prop_map(|(at, along, grip_mm, straight_mm, extra)| {
            Via::Clamp(Clamp { at, along, grip_mm, straight_mm, extra })
        }),
    ]
}

fn any_sleeve() -> impl Strategy<Value = Sleeve> {
    let place = (of(length(0.0, 300.0)), of(length(300.5, 900.0)));
    let harms = vec(select(&Nature::HARMFUL[..]), 0..3);
    (text(), place, of(length(-40.0, 300.0)), harms, extra()).prop_map(
        |(name, (from_mm, to_mm), temperature_c, harms, extra)| Sleeve {
            name,
            from_mm,
            to_mm,
            temperature_c,
            rated_for: harms.into_iter().map(|(nature, _)| nature).collect(),
            extra,
        },
    )
}

fn any_service() -> impl Strategy<Value = Service> {
    let mut compatibility = Fluid::KNOWN.map(|(fluid, _)| fluid).to_vec();
    compatibility.push(Fluid::Other("hydraulic fluid".to_owned()));
    let figures = (of(length(0.0, 60.0)), of(length(-1.0, 300.0)), of(length(-40.0, 200.0)));
    let own = (of(length(1.0, 2000.0)), of(length(0.01, 3000.0)));
    (of(select(compatibility)), figures, own, [of(any::<bool>()), of(any::<bool>())], extra())
        .prop_map(
            |(fluid, (flow_lpm, pressure_bar, temperature_c), own, [flexing, drains], extra)| {
                Service {
                    fluid,
                    flow_lpm,
                    pressure_bar,
                    temperature_c,
                    density_kg_m3: own.0,
                    viscosity_mm2_s: own.1,
                    flexing,
                    drains,
                    extra,
                }
            },
        )
}

impl RunPlan {
    /// The run, with its references selected in this bay; sizes of ends are added to the bay's
    /// stock where they are not there yet.
    fn laid(self, id: String, bay: &mut Bay) -> Run {
        let hose = self.hose.get(&bay.stock.hoses);
        let (dash, hose) = (self.size.get(&hose.sizes).dash, hose.id.clone());
        let [from, to] = self.ends.map(|plan| plan.laid(dash, bay));
        let [radius_mm, slack_pct, outside_mm, dry_fit_mm] = self.wanted;
        // One in four gives its slack by free length.
        let clamps = self.via.iter().filter(|via| matches!(via, Via::Clamp(_))).count();
        let each = slack_pct.filter(|slack| slack.to_bits() % 4 == 0);
        let slack_mm = each.map(|slack| (0..=clamps).map(|k| slack + k as f64).collect());
        Run {
            id,
            name: self.name,
            hose,
            dash,
            from,
            to,
            via: self.via,
            radius_mm,
            slack_pct,
            slack_mm,
            outside_mm,
            conductive_liner: outside_mm.map(|mm: f64| mm.to_bits().is_multiple_of(2)),
            dry_fit_mm,
            sleeves: self.sleeves,
            bench: self.bench,
            service: self.service,
            extra: self.extra,
        }
    }
}

impl EndPlan {
    fn laid(self, dash: u32, bay: &mut Bay) -> RunEnd {
        let port = self.port.get(&bay.ports).id.clone();
        let size = EndSize { dash, ..self.size };
        if !self.is_named {
            return RunEnd {
                port,
                along_mm: Some(size.along_mm),
                across_mm: Some(size.across_mm),
                socket_mm: Some(size.socket_mm),
                ..self.given
            };
        }
        let kind = self.kind.index(bay.stock.ends.len());
        let kind = &mut bay.stock.ends[kind];
        if kind.size(dash, size.angle_deg).is_none() {
            kind.sizes.push(size);
        }
        RunEnd { port, end: Some(kind.id.clone()), ..self.given }
    }
}

/// How many there are of each thing, to see that the bays have every feature.
pub(crate) fn census(bay: &Bay) -> BTreeMap<&'static str, usize> {
    let runs: Vec<&Run> = bay.routings.iter().flat_map(|routing| &routing.runs).collect();
    let ends: Vec<&RunEnd> = runs.iter().flat_map(|run| [&run.from, &run.to]).collect();
    let via: Vec<&Via> = runs.iter().flat_map(|run| &run.via).collect();
    BTreeMap::from([
        ("groups", bay.groups.len()),
        ("obstacles", bay.obstacles.len()),
        ("riding ports", bay.ports.iter().filter(|port| port.group.is_some()).count()),
        ("ports on obstacles", bay.ports.iter().filter(|port| port.on.is_some()).count()),
        ("shelf lengths", bay.stock.lengths.len()),
        ("backgrounds", bay.backgrounds.iter().filter_map(BackgroundEntry::known).count()),
        ("runs", runs.len()),
        ("corners", via.iter().filter(|via| matches!(via, Via::Corner(_))).count()),
        ("clamps", via.iter().filter(|via| matches!(via, Via::Clamp(_))).count()),
        ("elbows", ends.iter().filter(|end| end.angle_deg > 0.0).count()),
        ("straights given", ends.iter().filter(|end| end.straight_mm.is_some()).count()),
        ("leads to be found", ends.iter().filter(|end| end.straight_mm.is_none()).count()),
        ("ends named", ends.iter().filter(|end| end.end.is_some()).count()),
        ("ends measured", ends.iter().filter(|end| end.is_measured()).count()),
        ("media", runs.iter().filter(|run| run.service.fluid.is_some()).count()),
        ("unknown keys", hosewright::model::unknown_keys(bay).len()),
    ])
}

//! From a bay to the text of its file.
//!
//! Stable and made to be read: the contract's order of keys, two spaces a level, rows of numbers
//! on one line, whole numbers without a point, other numbers as short as they can be and still be
//! read back the same, what is absent left out, unknown keys after the known ones in their order.

mod background;
mod bench;
mod layout;
mod tree;

use glam::DVec3;

use crate::model::{
    Attachment, Bay, Clamp, ClampSize, Construction, Corner, EndKind, EndSize, Fluid, HoseKind,
    HoseSize, Motion, MovingGroup, Obstacle, Port, Routing, Run, RunEnd, Service, Shape,
    ShelfLength, Sleeve, Stock, Tilt, Via,
};
use crate::units::LengthUnit;

use super::{FORMAT, VERSION};
use tree::{Entries, Tree};

/// A number in the bay that no file can hold.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{pointer}: the number {found} cannot be saved; a number that is finite is expected")]
pub struct NotFinite {
    /// The place in the file, as a JSON Pointer (RFC 6901).
    pub pointer: String,
    /// The number.
    pub found: String,
}

/// The text of a bay's file. Meshes are named in it, not held by it.
///
/// # Errors
/// Where a number of the bay is not finite; nothing else can go wrong.
pub fn write(bay: &Bay) -> Result<String, NotFinite> {
    layout::lay_out(&tree_of(bay))
}

fn tree_of(bay: &Bay) -> Tree<'_> {
    let unit = match bay.show_units {
        LengthUnit::Inch => "inch",
        LengthUnit::Mm => "mm",
    };
    Entries::new()
        .put("format", FORMAT)
        .put("version", VERSION)
        .text("title", &bay.title)
        .text("notes", &bay.notes)
        .put("show_units", unit)
        .list("groups", &bay.groups, group)
        .list("ports", &bay.ports, port)
        .list("obstacles", &bay.obstacles, obstacle)
        .list("backgrounds", &bay.backgrounds, background::entry)
        .maybe("tilt_deg", bay.tilt.as_ref().map(tilt))
        .section("stock", stock(&bay.stock))
        .put("routings", Tree::List(bay.routings.iter().map(routing).collect()))
        .extra(&bay.extra)
}

fn tilt(tilt: &Tilt) -> Tree<'_> {
    Entries::new().put("pitch", tilt.pitch_deg).put("roll", tilt.roll_deg).extra(&tilt.extra)
}

fn group(group: &MovingGroup) -> Tree<'_> {
    Entries::new()
        .put("id", &*group.id)
        .text("name", &group.name)
        .list("moves", &group.moves, motion)
        .extra(&group.extra)
}

fn motion(motion: &Motion) -> Tree<'_> {
    match motion {
        Motion::Pivot { about, axis, from_deg, to_deg, extra } => Entries::new()
            .put("kind", "pivot")
            .put("about", *about)
            .put("axis", *axis)
            .put("from_deg", *from_deg)
            .put("to_deg", *to_deg)
            .extra(extra),
        Motion::Slide { from, to, extra } => {
            Entries::new().put("kind", "slide").put("from", *from).put("to", *to).extra(extra)
        }
    }
}

fn port(port: &Port) -> Tree<'_> {
    Entries::new()
        .put("id", &*port.id)
        .text("name", &port.name)
        .put("at", port.at)
        .put("toward", port.toward)
        .maybe("dash", port.dash)
        .maybe("group", port.group.as_deref())
        .maybe("on", port.on.as_deref())
        .extra(&port.extra)
}

fn obstacle(obstacle: &Obstacle) -> Tree<'_> {
    let entries = Entries::new()
        .put("id", &*obstacle.id)
        .text("name", &obstacle.name)
        .put("nature", obstacle.nature.word())
        .maybe("min_clearance", obstacle.min_clearance_mm)
        .maybe("group", obstacle.group.as_deref());
    let entries = match &obstacle.shape {
        Shape::Box { min, max } => entries.put("kind", "box").put("min", *min).put("max", *max),
        Shape::Cylinder { from, to, radius } => {
            entries.put("kind", "cylinder").put("from", *from).put("to", *to).put("radius", *radius)
        }
        Shape::Sphere { at, radius } => {
            entries.put("kind", "sphere").put("at", *at).put("radius", *radius)
        }
        Shape::Mesh { file, scale, at, .. } => entries
            .put("kind", "mesh")
            .put("file", &**file)
            .maybe("scale", Some(*scale).filter(|scale| *scale != 1.0))
            .maybe("at", Some(*at).filter(|at| *at != DVec3::ZERO)),
    };
    entries.extra(&obstacle.extra)
}

fn stock(stock: &Stock) -> Tree<'_> {
    Entries::new()
        .list("hoses", &stock.hoses, hose)
        .list("ends", &stock.ends, end)
        .list("lengths", &stock.lengths, shelf_length)
        .list("clamps", &stock.clamps, clamp_size)
        .extra(&stock.extra)
}

fn hose(hose: &HoseKind) -> Tree<'_> {
    let measured_to = |to_centre| if to_centre { "centre" } else { "inside" };
    Entries::new()
        .put("id", &*hose.id)
        .text("name", &hose.name)
        .maybe("maker", hose.maker.as_deref())
        .text("construction", hose.construction.word())
        .maybe("liner", hose.liner.as_deref())
        .maybe("conductive_liner", hose.conductive_liner)
        .maybe("temperature_c", hose.temperature_c)
        .maybe("length_change_pct", hose.length_change_pct)
        .maybe("bend_measured_to", hose.bend_to_centre.map(measured_to))
        .list("sizes", &hose.sizes, hose_size)
        .extra(&hose.extra)
}

fn hose_size(size: &HoseSize) -> Tree<'_> {
    Entries::new()
        .put("dash", size.dash)
        .maybe("bore", size.bore_mm)
        .maybe("outside", size.outside_mm)
        .put("bend_radius", size.bend_radius_mm)
        .maybe("max_pressure_bar", size.max_pressure_bar)
        .maybe("burst_bar", size.burst_bar)
        .maybe("proof_bar", size.proof_bar)
        .maybe("expansion_ml_per_m", size.expansion_ml_per_m)
        .maybe("expansion_at_bar", size.expansion_at_bar)
        .maybe("temperature_c", size.temperature_c)
        .maybe("mass_per_m", size.mass_kg_per_m)
        .maybe("price_per_m", size.price_per_m)
        .extra(&size.extra)
}

fn end(end: &EndKind) -> Tree<'_> {
    Entries::new()
        .put("id", &*end.id)
        .text("name", &end.name)
        .maybe("maker", end.maker.as_deref())
        .maybe("for_construction", end.for_construction.as_ref().map(Construction::word))
        .maybe("attachment", end.attachment.map(Attachment::word))
        .list("sizes", &end.sizes, end_size)
        .extra(&end.extra)
}

fn end_size(size: &EndSize) -> Tree<'_> {
    Entries::new()
        .put("dash", size.dash)
        .put("angle_deg", size.angle_deg)
        .put("along", size.along_mm)
        .put("across", size.across_mm)
        .put("socket", size.socket_mm)
        .maybe("nut_hex", size.nut_hex_mm)
        .maybe("insertion", size.insertion_mm)
        .maybe("crimp_diameter", size.crimp_diameter_mm)
        .maybe("measured", size.measured)
        .text("measured_on", &size.measured_on)
        .maybe("max_pressure_bar", size.max_pressure_bar)
        .maybe("price", size.price)
        .maybe("mass", size.mass_kg)
        .extra(&size.extra)
}

fn shelf_length(length: &ShelfLength) -> Tree<'_> {
    Entries::new()
        .put("hose", &*length.hose)
        .put("dash", length.dash)
        .put("length", length.length_mm)
        .maybe("count", length.count)
        .maybe("price", length.price)
        .extra(&length.extra)
}

fn clamp_size(clamp: &ClampSize) -> Tree<'_> {
    Entries::new()
        .text("name", &clamp.name)
        .put("outside", clamp.outside_mm)
        .maybe("price", clamp.price)
        .extra(&clamp.extra)
}

fn routing(routing: &Routing) -> Tree<'_> {
    Entries::new()
        .put("id", &*routing.id)
        .text("name", &routing.name)
        .maybe("hose_clearance", routing.hose_clearance_mm)
        .list("runs", &routing.runs, run)
        .extra(&routing.extra)
}

fn run(run: &Run) -> Tree<'_> {
    Entries::new()
        .put("id", &*run.id)
        .text("name", &run.name)
        .put("hose", &*run.hose)
        .put("dash", run.dash)
        .put("from", run_end(&run.from))
        .put("to", run_end(&run.to))
        .list("via", &run.via, via)
        .maybe("radius", run.radius_mm)
        .maybe("slack_pct", run.slack_pct)
        .maybe("slack_mm", run.slack_mm.as_deref())
        .maybe("outside", run.outside_mm)
        .maybe("dry_fit_mm", run.dry_fit_mm)
        .list("sleeves", &run.sleeves, sleeve)
        .section("bench", bench::bench(&run.bench))
        .section("service", service(&run.service))
        .extra(&run.extra)
}

fn sleeve(sleeve: &Sleeve) -> Tree<'_> {
    Entries::new()
        .text("name", &sleeve.name)
        .maybe("from_mm", sleeve.from_mm)
        .maybe("to_mm", sleeve.to_mm)
        .maybe("temperature_c", sleeve.temperature_c)
        .list("rated_for", &sleeve.rated_for, |nature| nature.word().into())
        .extra(&sleeve.extra)
}

fn run_end(end: &RunEnd) -> Tree<'_> {
    Entries::new()
        .put("port", &*end.port)
        .maybe("end", end.end.as_deref())
        .put("angle_deg", end.angle_deg)
        .put("clock_deg", end.clock_deg)
        .maybe("straight", end.straight_mm)
        .maybe("along", end.along_mm)
        .maybe("across", end.across_mm)
        .maybe("socket", end.socket_mm)
        .extra(&end.extra)
}

fn via(via: &Via) -> Tree<'_> {
    match via {
        Via::Corner(Corner { at, radius_mm, extra }) => Entries::new()
            .put("kind", "corner")
            .put("at", *at)
            .maybe("radius", *radius_mm)
            .extra(extra),
        Via::Clamp(Clamp { at, along, grip_mm, straight_mm, extra }) => Entries::new()
            .put("kind", "clamp")
            .put("at", *at)
            .put("along", *along)
            .maybe("grip", *grip_mm)
            .maybe("straight", *straight_mm)
            .extra(extra),
    }
}

fn service(service: &Service) -> Tree<'_> {
    Entries::new()
        .maybe("fluid", service.fluid.as_ref().map(Fluid::word))
        .maybe("flow_lpm", service.flow_lpm)
        .maybe("pressure_bar", service.pressure_bar)
        .maybe("temperature_c", service.temperature_c)
        .maybe("density_kg_m3", service.density_kg_m3)
        .maybe("viscosity_mm2_s", service.viscosity_mm2_s)
        .maybe("flexing", service.flexing)
        .maybe("drains", service.drains)
        .extra(&service.extra)
}

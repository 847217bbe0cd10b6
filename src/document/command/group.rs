//! Several things at once: moved, copied, taken out.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use glam::DVec3;

use super::item::{fresh_id, group_mut, obstacle_mut, port_mut, run_mut, via_mut};
use super::{CommandError, Item, finite};
use crate::model::{Bay, Mesh, Motion, Obstacle, Port, Run, Shape, Via};

/// A way to put a thing somewhere else.
pub(super) trait Placing {
    /// Where a point goes.
    fn point(&self, point: DVec3) -> DVec3;
    /// What becomes of a direction or a way.
    fn way(&self, way: DVec3) -> DVec3;
    /// Whether left and right change places: turning senses are reversed then.
    fn mirrors(&self) -> bool;
    /// What a copy's name has behind it.
    fn word(&self) -> &'static str;
}

/// Parallel to itself.
pub(super) struct Shift(pub(super) DVec3);

impl Placing for Shift {
    fn point(&self, point: DVec3) -> DVec3 {
        point + self.0
    }

    fn way(&self, way: DVec3) -> DVec3 {
        way
    }

    fn mirrors(&self) -> bool {
        false
    }

    fn word(&self) -> &'static str {
        "copy"
    }
}

/// Puts the things somewhere else, and with obstacles the ports that are screwed into them.
pub(super) fn place(
    bay: &mut Bay,
    items: &[Item],
    placing: &impl Placing,
) -> Result<(), CommandError> {
    let mut distinct: BTreeSet<Item> = items.iter().cloned().collect();
    distinct.extend(bay.ports.iter().filter_map(|port| {
        let on = Item::Obstacle(port.on.clone()?);
        items.contains(&on).then(|| Item::Port(port.id.clone()))
    }));
    for item in &distinct {
        match item {
            Item::Port(id) => place_port(port_mut(bay, id)?, placing)?,
            Item::Obstacle(id) => place_obstacle(obstacle_mut(bay, id)?, placing)?,
            Item::MovingGroup(id) => {
                for motion in &mut group_mut(bay, id)?.moves {
                    place_motion(motion, placing)?;
                }
            }
            Item::Run { routing, run } => place_run(run_mut(bay, routing, run)?, placing)?,
            Item::Via { routing, run, via } => {
                // A corner of a hose that moves as a whole has moved with it.
                let whole = Item::Run { routing: routing.clone(), run: run.clone() };
                let step = via_mut(bay, routing, run, *via)?;
                if !distinct.contains(&whole) {
                    place_via(step, placing)?;
                }
            }
        }
    }
    Ok(())
}

fn place_port(port: &mut Port, placing: &impl Placing) -> Result<(), CommandError> {
    port.at = finite(placing.point(port.at))?;
    port.toward = placing.way(port.toward);
    Ok(())
}

fn place_obstacle(obstacle: &mut Obstacle, placing: &impl Placing) -> Result<(), CommandError> {
    match &mut obstacle.shape {
        Shape::Box { min, max } => {
            let (a, b) = (finite(placing.point(*min))?, finite(placing.point(*max))?);
            (*min, *max) = (a.min(b), a.max(b));
        }
        Shape::Cylinder { from, to, .. } => {
            let (a, b) = (finite(placing.point(*from))?, finite(placing.point(*to))?);
            if a == b {
                return Err(CommandError::NotFinite);
            }
            (*from, *to) = (a, b);
        }
        Shape::Sphere { at, .. } => *at = finite(placing.point(*at))?,
        Shape::Mesh { .. } if placing.mirrors() => {
            return Err(CommandError::Mesh(obstacle.name.clone()));
        }
        Shape::Mesh { at, mesh, .. } => {
            let to = finite(placing.point(*at))?;
            *mesh = Arc::new(Mesh::clone(mesh).placed(1.0, to - *at));
            *at = to;
        }
    }
    Ok(())
}

fn place_motion(motion: &mut Motion, placing: &impl Placing) -> Result<(), CommandError> {
    match motion {
        Motion::Pivot { about, axis, from_deg, to_deg, .. } => {
            *about = finite(placing.point(*about))?;
            *axis = placing.way(*axis);
            if placing.mirrors() {
                (*from_deg, *to_deg) = (-*from_deg, -*to_deg);
            }
        }
        Motion::Slide { from, to, .. } => (*from, *to) = (placing.way(*from), placing.way(*to)),
    }
    Ok(())
}

fn place_run(run: &mut Run, placing: &impl Placing) -> Result<(), CommandError> {
    for step in &mut run.via {
        place_via(step, placing)?;
    }
    if placing.mirrors() {
        for end in [&mut run.from, &mut run.to] {
            // 0 and not −0 for an elbow that is not turned.
            end.clock_deg = (360.0 - end.clock_deg).rem_euclid(360.0);
        }
    }
    Ok(())
}

fn place_via(step: &mut Via, placing: &impl Placing) -> Result<(), CommandError> {
    *step.at_mut() = finite(placing.point(step.at()))?;
    if let Via::Clamp(clamp) = step {
        clamp.along = placing.way(clamp.along);
    }
    Ok(())
}

/// New ids by old ones.
type Renamed = BTreeMap<String, String>;

/// Copies the things and puts the copies somewhere else. Where a port's group or obstacle is copied
/// too, the copy rides on the copy.
pub(super) fn copy(
    bay: &mut Bay,
    items: &[Item],
    placing: &impl Placing,
) -> Result<(), CommandError> {
    let items: BTreeSet<Item> = with_ports(bay, items)?;
    let (mut groups, mut obstacles, mut ports) = (Renamed::new(), Renamed::new(), Renamed::new());
    for item in &items {
        if let Item::MovingGroup(id) = item {
            let mut copy = group_mut(bay, id)?.clone();
            copy.id = fresh_id(id, |id| bay.group(id).is_some());
            copied_name(&mut copy.name, placing);
            for motion in &mut copy.moves {
                place_motion(motion, placing)?;
            }
            groups.insert(id.clone(), copy.id.clone());
            bay.groups.push(copy);
        }
    }
    for item in &items {
        if let Item::Obstacle(id) = item {
            let mut copy = obstacle_mut(bay, id)?.clone();
            copy.id = fresh_id(id, |id| bay.obstacle(id).is_some());
            copied_name(&mut copy.name, placing);
            rename_reference(copy.group.as_mut(), &groups);
            place_obstacle(&mut copy, placing)?;
            obstacles.insert(id.clone(), copy.id.clone());
            bay.obstacles.push(copy);
        }
    }
    for item in &items {
        if let Item::Port(id) = item {
            let mut copy = port_mut(bay, id)?.clone();
            copy.id = fresh_id(id, |id| bay.port(id).is_some());
            copied_name(&mut copy.name, placing);
            rename_reference(copy.group.as_mut(), &groups);
            rename_reference(copy.on.as_mut(), &obstacles);
            place_port(&mut copy, placing)?;
            ports.insert(id.clone(), copy.id.clone());
            bay.ports.push(copy);
        }
    }
    copy_routes(bay, &items, placing, &ports)
}

fn copy_routes(
    bay: &mut Bay,
    items: &BTreeSet<Item>,
    placing: &impl Placing,
    ports: &Renamed,
) -> Result<(), CommandError> {
    // From the last corner to the first: the places of those before it stay what they are.
    for item in items.iter().rev() {
        if let Item::Via { routing, run, via } = item {
            let mut copy = via_mut(bay, routing, run, *via)?.clone();
            place_via(&mut copy, placing)?;
            run_mut(bay, routing, run)?.insert_via(via + 1, copy);
        }
    }
    for item in items {
        if let Item::Run { routing, run } = item {
            let mut copy = run_mut(bay, routing, run)?.clone();
            place_run(&mut copy, placing)?;
            copied_name(&mut copy.name, placing);
            rename_reference(Some(&mut copy.from.port), ports);
            rename_reference(Some(&mut copy.to.port), ports);
            let runs = &mut super::item::routing_mut(bay, routing)?.runs;
            copy.id = fresh_id(run, |id| runs.iter().any(|run| run.id == id));
            runs.push(copy);
        }
    }
    Ok(())
}

/// The things with the ports of the hoses among them; without corners of hoses that are copied
/// whole.
fn with_ports(bay: &mut Bay, items: &[Item]) -> Result<BTreeSet<Item>, CommandError> {
    let mut all: BTreeSet<Item> = items.iter().cloned().collect();
    for item in items {
        if let Item::Run { routing, run } = item {
            let run = run_mut(bay, routing, run)?;
            all.extend([&run.from, &run.to].map(|end| Item::Port(end.port.clone())));
        }
    }
    let whole: BTreeSet<Item> =
        all.iter().filter(|item| matches!(item, Item::Run { .. })).cloned().collect();
    all.retain(|item| match item {
        Item::Via { routing, run, .. } => {
            !whole.contains(&Item::Run { routing: routing.clone(), run: run.clone() })
        }
        _ => true,
    });
    Ok(all)
}

fn copied_name(name: &mut String, placing: &impl Placing) {
    if !name.is_empty() {
        *name = format!("{name}, {}", placing.word());
    }
}

fn rename_reference(reference: Option<&mut String>, renamed: &Renamed) {
    if let Some(reference) = reference
        && let Some(new) = renamed.get(reference.as_str())
    {
        reference.clone_from(new);
    }
}

/// Takes the things out, with the hoses on ports that go; what rode on a group stays where it is.
pub(super) fn delete(bay: &mut Bay, items: &[Item]) -> Result<(), CommandError> {
    let distinct: BTreeSet<&Item> = items.iter().collect();
    // From the last corner to the first: the places of those before it stay what they are.
    for item in distinct.iter().rev() {
        if let Item::Via { routing, run, via } = item {
            via_mut(bay, routing, run, *via)?;
            run_mut(bay, routing, run)?.remove_via(*via);
        }
    }
    for item in distinct {
        match item {
            Item::Port(id) => {
                port_mut(bay, id)?;
                bay.ports.retain(|port| port.id != *id);
                for routing in &mut bay.routings {
                    routing.runs.retain(|run| run.from.port != *id && run.to.port != *id);
                }
            }
            Item::Obstacle(id) => {
                obstacle_mut(bay, id)?;
                bay.obstacles.retain(|obstacle| obstacle.id != *id);
                for port in &mut bay.ports {
                    port.on.take_if(|on| on == id);
                }
            }
            Item::MovingGroup(id) => {
                group_mut(bay, id)?;
                bay.groups.retain(|group| group.id != *id);
                for port in &mut bay.ports {
                    port.group.take_if(|group| group == id);
                }
                for obstacle in &mut bay.obstacles {
                    obstacle.group.take_if(|group| group == id);
                }
            }
            Item::Run { routing, run } => {
                // It may have gone with its port.
                let runs = &mut super::item::routing_mut(bay, routing)?.runs;
                runs.retain(|other| other.id != *run);
            }
            Item::Via { .. } => {}
        }
    }
    Ok(())
}

//! What can be done to a bay, each thing with the words that name it.
//!
//! A command either leaves a bay that could be saved, or refuses and leaves it as it was.

mod background;
mod error;
mod group;
mod item;
mod mirror;
mod replace;
mod routing;

pub use error::CommandError;
pub use item::{Item, fresh_id};

use glam::DVec3;

use crate::model::{Background, Bay, MovingGroup, Obstacle, Port, Routing, Run, StockEntry, Via};
use crate::units::LengthUnit;

use super::file::faults_of;

/// One change of a bay. Ids and places are those before the change.
#[derive(Debug, Clone, PartialEq)]
pub enum Command {
    /// Puts a port's seat somewhere else; its direction stays.
    MovePort {
        /// Id of the port.
        port: String,
        /// Where its seat goes.
        to: DVec3,
    },
    /// Puts a corner or a clamp of a run somewhere else.
    MoveVia {
        /// Id of the routing.
        routing: String,
        /// Id of the run.
        run: String,
        /// Place in `Run::via`.
        via: usize,
        /// Where it goes.
        to: DVec3,
    },
    /// Moves things together. A run brings its corners and clamps, not its ports.
    Move {
        /// What.
        items: Vec<Item>,
        /// How far.
        by: DVec3,
    },
    /// Takes things out; a port takes the hoses on it along, in every routing.
    Delete(Vec<Item>),
    /// Makes copies; a run brings copies of its ports. New ids are found.
    Copy {
        /// What.
        items: Vec<Item>,
        /// How far from the originals.
        by: DVec3,
    },
    /// Mirrors about the vehicle's middle plane, Y = 0.
    Mirror {
        /// What.
        items: Vec<Item>,
        /// Whether the originals stay and mirrored copies are made.
        copy: bool,
    },
    /// Adds a port.
    AddPort(Box<Port>),
    /// Adds an obstacle.
    AddObstacle(Box<Obstacle>),
    /// Adds a group.
    AddGroup(Box<MovingGroup>),
    /// Adds a hose to a routing.
    AddRun {
        /// Id of the routing.
        routing: String,
        /// The hose.
        run: Box<Run>,
    },
    /// Adds a corner or a clamp.
    AddVia {
        /// Id of the routing.
        routing: String,
        /// Id of the run.
        run: String,
        /// The place in `Run::via` that it takes.
        at: usize,
        /// What.
        via: Via,
    },
    /// Adds a routing at the end.
    AddRouting(Box<Routing>),
    /// Adds a copy of a routing behind it.
    DuplicateRouting {
        /// Id of the routing.
        routing: String,
        /// Name of the copy.
        name: String,
    },
    /// Puts another port in the place of one; what refers to it follows a new id.
    SetPort {
        /// Id of the port.
        id: String,
        /// The port as it is to be.
        port: Box<Port>,
        /// Name of the change.
        label: &'static str,
    },
    /// The same for an obstacle.
    SetObstacle {
        /// Id of the obstacle.
        id: String,
        /// The obstacle as it is to be.
        obstacle: Box<Obstacle>,
        /// Name of the change.
        label: &'static str,
    },
    /// The same for a group.
    SetGroup {
        /// Id of the group.
        id: String,
        /// The group as it is to be.
        group: Box<MovingGroup>,
        /// Name of the change.
        label: &'static str,
    },
    /// The same for a hose.
    SetRun {
        /// Id of the routing.
        routing: String,
        /// Id of the run.
        id: String,
        /// The run as it is to be.
        run: Box<Run>,
        /// Name of the change.
        label: &'static str,
    },
    /// The same for a corner or a clamp.
    SetVia {
        /// Id of the routing.
        routing: String,
        /// Id of the run.
        run: String,
        /// Place in `Run::via`.
        via: usize,
        /// What is to be there.
        to: Via,
        /// Name of the change.
        label: &'static str,
    },
    /// Gives a routing another id, name or gap between hoses; its runs stay.
    SetRouting {
        /// Id of the routing.
        id: String,
        /// Its new id.
        new_id: String,
        /// Its new name.
        name: String,
        /// Its new gap between hoses.
        hose_clearance_mm: Option<f64>,
    },
    /// Puts a routing somewhere else in the list.
    MoveRouting {
        /// Id of the routing.
        routing: String,
        /// Its new place.
        to: usize,
    },
    /// Takes a routing out; the last stays.
    DeleteRouting(String),
    /// Lays a photo or an outline under a view, on top of those that are there.
    AddBackground(Box<Background>),
    /// Puts another background in the place of one.
    SetBackground {
        /// Id of the background.
        id: String,
        /// The background as it is to be.
        background: Box<Background>,
        /// Name of the change.
        label: &'static str,
    },
    /// Puts a background over or under the others.
    MoveBackground {
        /// Id of the background.
        id: String,
        /// Its new place among them, the lowest first.
        to: usize,
    },
    /// Takes a background out; its file stays.
    DeleteBackground(String),
    /// Puts a part into the stock, in the place of the same part.
    PutInStock(StockEntry),
    /// Shows lengths in another unit; stored numbers stay millimetres.
    SetUnits(LengthUnit),
    /// Gives the bay another title.
    SetTitle(String),
    /// Gives the bay other notes.
    SetNotes(String),
    /// Several commands as one change, in order.
    Many {
        /// Name of the change.
        label: &'static str,
        /// The commands.
        commands: Vec<Self>,
    },
}

impl Command {
    /// Its name, as undo and redo say it.
    pub fn label(&self, bay: &Bay) -> &'static str {
        match self {
            Self::MovePort { .. } => "Move port",
            Self::MoveVia { routing, run, via, .. } => {
                match item::find_via(bay, routing, run, *via) {
                    Some(Via::Clamp(_)) => "Move clamp",
                    _ => "Move corner",
                }
            }
            Self::Move { items, .. } => item::label(bay, items, &item::MOVE),
            Self::Delete(items) => item::label(bay, items, &item::DELETE),
            Self::Copy { items, .. } => item::label(bay, items, &item::COPY),
            Self::Mirror { items, copy: true } => item::label(bay, items, &item::MIRROR_COPY),
            Self::Mirror { items, copy: false } => item::label(bay, items, &item::MIRROR),
            Self::AddPort(_) => "Add port",
            Self::AddObstacle(_) => "Add obstacle",
            Self::AddGroup(_) => "Add group",
            Self::AddRun { .. } => "Add hose",
            Self::AddVia { via: Via::Clamp(_), .. } => "Add clamp",
            Self::AddVia { .. } => "Add corner",
            Self::AddBackground(_) => "Add background",
            Self::MoveBackground { .. } => "Reorder background",
            Self::DeleteBackground(_) => "Delete background",
            Self::AddRouting(_) => "Add routing",
            Self::DuplicateRouting { .. } => "Duplicate routing",
            Self::SetPort { label, .. }
            | Self::SetObstacle { label, .. }
            | Self::SetGroup { label, .. }
            | Self::SetRun { label, .. }
            | Self::SetVia { label, .. }
            | Self::SetBackground { label, .. }
            | Self::Many { label, .. } => label,
            Self::SetRouting { .. } => "Change routing",
            Self::MoveRouting { .. } => "Move routing",
            Self::DeleteRouting(_) => "Delete routing",
            Self::PutInStock(_) => "Put part into the bay",
            Self::SetUnits(LengthUnit::Inch) => "Show inches",
            Self::SetUnits(LengthUnit::Mm) => "Show millimetres",
            Self::SetTitle(_) => "Rename bay",
            Self::SetNotes(_) => "Change notes",
        }
    }

    /// Carries it out.
    ///
    /// # Errors
    /// [`CommandError`]; the bay is then in an undefined state and to be thrown away.
    pub fn apply(&self, bay: &mut Bay) -> Result<(), CommandError> {
        self.carry_out(bay)?;
        // What places things cannot make a bay that the file would refuse: a drag stays quick.
        if self.only_places() {
            return Ok(());
        }
        faults_of(bay).into_iter().next().map_or(Ok(()), |fault| Err(CommandError::Refused(fault)))
    }

    /// Whether it changes places and words only, which are checked where they are set. A corner is nothing
    /// but a place.
    fn only_places(&self) -> bool {
        match self {
            Self::AddVia { via: Via::Corner(corner), .. } => {
                corner.radius_mm.is_none() && corner.extra.is_empty()
            }
            Self::MovePort { .. }
            | Self::MoveVia { .. }
            | Self::Move { .. }
            | Self::MoveRouting { .. }
            | Self::MoveBackground { .. }
            | Self::SetUnits(_)
            | Self::SetTitle(_)
            | Self::SetNotes(_) => true,
            Self::Many { commands, .. } => commands.iter().all(Self::only_places),
            _ => false,
        }
    }

    fn carry_out(&self, bay: &mut Bay) -> Result<(), CommandError> {
        match self {
            Self::MovePort { port, to } => {
                let to = finite(*to)?;
                item::port_mut(bay, port)?.at = to;
            }
            Self::MoveVia { routing, run, via, to } => {
                *item::via_mut(bay, routing, run, *via)?.at_mut() = finite(*to)?;
            }
            Self::Move { items, by } => group::place(bay, items, &group::Shift(*by))?,
            Self::Delete(items) => group::delete(bay, items)?,
            Self::Copy { items, by } => group::copy(bay, items, &group::Shift(*by))?,
            Self::Mirror { items, copy: false } => group::place(bay, items, &mirror::Mirror)?,
            Self::Mirror { items, copy: true } => group::copy(bay, items, &mirror::Mirror)?,
            Self::AddPort(port) => bay.ports.push(Port::clone(port)),
            Self::AddObstacle(obstacle) => bay.obstacles.push(Obstacle::clone(obstacle)),
            Self::AddGroup(group) => bay.groups.push(MovingGroup::clone(group)),
            Self::AddRun { routing, run } => {
                item::routing_mut(bay, routing)?.runs.push(Run::clone(run));
            }
            Self::AddVia { routing, run, at, via } => {
                finite(via.at())?;
                item::run_mut(bay, routing, run)?.insert_via(*at, via.clone());
            }
            Self::SetPort { id, port, .. } => replace::port(bay, id, port)?,
            Self::SetObstacle { id, obstacle, .. } => replace::obstacle(bay, id, obstacle)?,
            Self::SetGroup { id, group, .. } => replace::group(bay, id, group)?,
            Self::SetRun { routing, id, run, .. } => {
                *item::run_mut(bay, routing, id)? = Run::clone(run);
            }
            Self::SetVia { routing, run, via, to, .. } => {
                *item::via_mut(bay, routing, run, *via)? = to.clone();
            }
            Self::AddRouting(routing) => bay.routings.push(Routing::clone(routing)),
            Self::DuplicateRouting { routing, name } => routing::duplicate(bay, routing, name)?,
            Self::SetRouting { id, new_id, name, hose_clearance_mm } => {
                let routing = item::routing_mut(bay, id)?;
                routing.id.clone_from(new_id);
                routing.name.clone_from(name);
                routing.hose_clearance_mm = *hose_clearance_mm;
            }
            Self::MoveRouting { routing, to } => routing::put(bay, routing, *to)?,
            Self::DeleteRouting(routing) => routing::delete(bay, routing)?,
            Self::AddBackground(background) => background::add(bay, background),
            Self::SetBackground { id, background, .. } => background::set(bay, id, background)?,
            Self::MoveBackground { id, to } => background::put(bay, id, *to)?,
            Self::DeleteBackground(id) => background::delete(bay, id)?,
            Self::PutInStock(entry) => {
                entry.clone().put(&mut bay.stock);
            }
            Self::SetUnits(unit) => bay.show_units = *unit,
            Self::SetTitle(title) => bay.title.clone_from(title),
            Self::SetNotes(notes) => bay.notes.clone_from(notes),
            Self::Many { commands, .. } => {
                for command in commands {
                    command.carry_out(bay)?;
                }
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests;

fn finite(place: DVec3) -> Result<DVec3, CommandError> {
    if place.is_finite() { Ok(place) } else { Err(CommandError::NotFinite) }
}

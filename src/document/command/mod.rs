//! What can be done to a bay, each thing with the words that name it.
//!
//! A command either leaves a bay that could be saved, or refuses and leaves it as it was.

mod error;
mod group;
mod item;
mod mirror;
mod option;
mod replace;
mod underlay;

pub use error::CommandError;
pub use item::{Item, fresh_id};

use glam::DVec3;

use crate::model::{Bay, Body, Port, Routing, Run, Solid, Underlay, Via};
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
        /// Id of the option.
        option: String,
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
    /// Takes things out; a port takes the hoses on it along, in every option.
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
    /// Adds a solid.
    AddSolid(Box<Solid>),
    /// Adds a body.
    AddBody(Box<Body>),
    /// Adds a hose to an option.
    AddRun {
        /// Id of the option.
        option: String,
        /// The hose.
        run: Box<Run>,
    },
    /// Adds a corner or a clamp.
    AddVia {
        /// Id of the option.
        option: String,
        /// Id of the run.
        run: String,
        /// The place in `Run::via` that it takes.
        at: usize,
        /// What.
        via: Via,
    },
    /// Adds an option at the end.
    AddOption(Box<Routing>),
    /// Adds a copy of an option behind it.
    DuplicateOption {
        /// Id of the option.
        option: String,
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
    /// The same for a solid.
    SetSolid {
        /// Id of the solid.
        id: String,
        /// The solid as it is to be.
        solid: Box<Solid>,
        /// Name of the change.
        label: &'static str,
    },
    /// The same for a body.
    SetBody {
        /// Id of the body.
        id: String,
        /// The body as it is to be.
        body: Box<Body>,
        /// Name of the change.
        label: &'static str,
    },
    /// The same for a hose.
    SetRun {
        /// Id of the option.
        option: String,
        /// Id of the run.
        id: String,
        /// The run as it is to be.
        run: Box<Run>,
        /// Name of the change.
        label: &'static str,
    },
    /// The same for a corner or a clamp.
    SetVia {
        /// Id of the option.
        option: String,
        /// Id of the run.
        run: String,
        /// Place in `Run::via`.
        via: usize,
        /// What is to be there.
        to: Via,
        /// Name of the change.
        label: &'static str,
    },
    /// Gives an option another id, name or gap between hoses; its runs stay.
    SetOption {
        /// Id of the option.
        id: String,
        /// Its new id.
        new_id: String,
        /// Its new name.
        name: String,
        /// Its new gap between hoses.
        hose_gap_mm: Option<f64>,
    },
    /// Puts an option somewhere else in the list.
    MoveOption {
        /// Id of the option.
        option: String,
        /// Its new place.
        to: usize,
    },
    /// Takes an option out; the last stays.
    DeleteOption(String),
    /// Lays a photo or an outline under a view, on top of those that are there.
    AddUnderlay(Box<Underlay>),
    /// Puts another underlay in the place of one.
    SetUnderlay {
        /// Id of the underlay.
        id: String,
        /// The underlay as it is to be.
        underlay: Box<Underlay>,
        /// Name of the change.
        label: &'static str,
    },
    /// Puts an underlay over or under the others.
    MoveUnderlay {
        /// Id of the underlay.
        id: String,
        /// Its new place among them, the lowest first.
        to: usize,
    },
    /// Takes an underlay out; its file stays.
    DeleteUnderlay(String),
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
            Self::MoveVia { option, run, via, .. } => {
                match item::find_via(bay, option, run, *via) {
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
            Self::AddSolid(_) => "Add solid",
            Self::AddBody(_) => "Add body",
            Self::AddRun { .. } => "Add hose",
            Self::AddVia { via: Via::Clamp(_), .. } => "Add clamp",
            Self::AddVia { .. } => "Add corner",
            Self::AddUnderlay(_) => "Add underlay",
            Self::MoveUnderlay { .. } => "Raise or lower underlay",
            Self::DeleteUnderlay(_) => "Delete underlay",
            Self::AddOption(_) => "Add option",
            Self::DuplicateOption { .. } => "Duplicate option",
            Self::SetPort { label, .. }
            | Self::SetSolid { label, .. }
            | Self::SetBody { label, .. }
            | Self::SetRun { label, .. }
            | Self::SetVia { label, .. }
            | Self::SetUnderlay { label, .. }
            | Self::Many { label, .. } => label,
            Self::SetOption { .. } => "Change option",
            Self::MoveOption { .. } => "Move option",
            Self::DeleteOption(_) => "Delete option",
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
        // What only moves things cannot make a bay that the file would refuse: a drag stays quick.
        if self.only_moves() {
            return Ok(());
        }
        faults_of(bay).into_iter().next().map_or(Ok(()), |fault| Err(CommandError::Refused(fault)))
    }

    /// Whether it changes places and words only, which are checked where they are set.
    fn only_moves(&self) -> bool {
        match self {
            Self::MovePort { .. }
            | Self::MoveVia { .. }
            | Self::Move { .. }
            | Self::MoveOption { .. }
            | Self::MoveUnderlay { .. }
            | Self::SetUnits(_)
            | Self::SetTitle(_)
            | Self::SetNotes(_) => true,
            Self::Many { commands, .. } => commands.iter().all(Self::only_moves),
            _ => false,
        }
    }

    fn carry_out(&self, bay: &mut Bay) -> Result<(), CommandError> {
        match self {
            Self::MovePort { port, to } => {
                let to = finite(*to)?;
                item::port_mut(bay, port)?.at = to;
            }
            Self::MoveVia { option, run, via, to } => {
                *item::via_mut(bay, option, run, *via)?.at_mut() = finite(*to)?;
            }
            Self::Move { items, by } => group::place(bay, items, &group::Shift(*by))?,
            Self::Delete(items) => group::delete(bay, items)?,
            Self::Copy { items, by } => group::copy(bay, items, &group::Shift(*by))?,
            Self::Mirror { items, copy: false } => group::place(bay, items, &mirror::Mirror)?,
            Self::Mirror { items, copy: true } => group::copy(bay, items, &mirror::Mirror)?,
            Self::AddPort(port) => bay.ports.push(Port::clone(port)),
            Self::AddSolid(solid) => bay.solids.push(Solid::clone(solid)),
            Self::AddBody(body) => bay.bodies.push(Body::clone(body)),
            Self::AddRun { option, run } => {
                item::option_mut(bay, option)?.runs.push(Run::clone(run));
            }
            Self::AddVia { option, run, at, via } => {
                let steps = &mut item::run_mut(bay, option, run)?.via;
                steps.insert((*at).min(steps.len()), via.clone());
            }
            Self::SetPort { id, port, .. } => replace::port(bay, id, port)?,
            Self::SetSolid { id, solid, .. } => replace::solid(bay, id, solid)?,
            Self::SetBody { id, body, .. } => replace::body(bay, id, body)?,
            Self::SetRun { option, id, run, .. } => {
                *item::run_mut(bay, option, id)? = Run::clone(run);
            }
            Self::SetVia { option, run, via, to, .. } => {
                *item::via_mut(bay, option, run, *via)? = to.clone();
            }
            Self::AddOption(option) => bay.options.push(Routing::clone(option)),
            Self::DuplicateOption { option, name } => option::duplicate(bay, option, name)?,
            Self::SetOption { id, new_id, name, hose_gap_mm } => {
                let option = item::option_mut(bay, id)?;
                option.id.clone_from(new_id);
                option.name.clone_from(name);
                option.hose_gap_mm = *hose_gap_mm;
            }
            Self::MoveOption { option, to } => option::put(bay, option, *to)?,
            Self::DeleteOption(option) => option::delete(bay, option)?,
            Self::AddUnderlay(underlay) => underlay::add(bay, underlay),
            Self::SetUnderlay { id, underlay, .. } => underlay::set(bay, id, underlay)?,
            Self::MoveUnderlay { id, to } => underlay::put(bay, id, *to)?,
            Self::DeleteUnderlay(id) => underlay::delete(bay, id)?,
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

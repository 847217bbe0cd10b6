//! A long random life of a document: whatever is done to a bay, it can be saved and opened again,
//! and undoing it all gives the first bay back, byte for byte.

mod common;

use glam::DVec3;
use hosewright::document::file::{faults_of, write};
use hosewright::document::{Command, Document, Item, fresh_id};
use hosewright::model::{Bay, Clamp, Corner, Nature, Obstacle, Port, Shape, Via};
use hosewright::units::LengthUnit;

use common::build::{bay, clamp, corner, port, run, straight_end};
use common::xorshift::Xorshift;

const STEPS: usize = 100_000;

/// The same life every time.
struct Dice(Xorshift);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        self.0.below(sides as u64) as usize
    }

    fn place(&mut self) -> DVec3 {
        DVec3::from_array([(); 3].map(|()| self.roll(4001) as f64 / 4.0 - 500.0))
    }

    fn pick<'a, T>(&mut self, from: &'a [T]) -> Option<&'a T> {
        if from.is_empty() { None } else { from.get(self.roll(from.len())) }
    }

    fn items(&mut self, bay: &Bay) -> Vec<Item> {
        (0..=self.roll(3)).filter_map(|_| self.item(bay)).collect()
    }

    fn item(&mut self, bay: &Bay) -> Option<Item> {
        let routing = self.pick(&bay.routings)?;
        Some(match self.roll(5) {
            0 => Item::Port(self.pick(&bay.ports)?.id.clone()),
            1 => Item::Obstacle(self.pick(&bay.obstacles)?.id.clone()),
            2 => Item::MovingGroup(self.pick(&bay.groups)?.id.clone()),
            3 => {
                Item::Run { routing: routing.id.clone(), run: self.pick(&routing.runs)?.id.clone() }
            }
            _ => {
                let run = self.pick(&routing.runs)?;
                let via = self.roll(run.via.len() + 1);
                Item::Via { routing: routing.id.clone(), run: run.id.clone(), via }
            }
        })
    }

    /// Something to do, sensible or not.
    fn command(&mut self, bay: &Bay) -> Option<Command> {
        let large = bay.ports.len() + bay.obstacles.len() + bay.groups.len() > 14
            || bay.routings.iter().map(|routing| routing.runs.len()).sum::<usize>() > 7;
        if large {
            return Some(Command::Delete(self.items(bay)));
        }
        let routing = self.pick(&bay.routings)?;
        let of = routing.id.clone();
        Some(match self.roll(20) {
            0..=4 => Command::Move { items: self.items(bay), by: self.place() },
            5 => Command::MovePort { port: self.pick(&bay.ports)?.id.clone(), to: self.place() },
            6 => Command::Delete(vec![self.item(bay)?]),
            7 => Command::Copy { items: self.items(bay), by: self.place() },
            8 => Command::Mirror { items: self.items(bay), copy: self.roll(2) == 0 },
            9 => {
                let id = fresh_id("port", |id| bay.port(id).is_some());
                Command::AddPort(Box::new(port(&id, self.place(), self.place())))
            }
            10 => Command::AddObstacle(Box::new(self.obstacle(bay))),
            11 => self.hose(bay, of)?,
            12 | 13 => {
                let run = self.pick(&routing.runs)?;
                Command::AddVia {
                    routing: of,
                    run: run.id.clone(),
                    at: self.roll(9),
                    via: self.via(),
                }
            }
            14 => {
                let run = self.pick(&routing.runs)?;
                let via = self.roll(run.via.len() + 1);
                let to = self.via();
                Command::SetVia {
                    routing: of,
                    run: run.id.clone(),
                    via,
                    to,
                    label: "Change corner",
                }
            }
            15 => self.renamed_port(bay)?,
            16 => Command::DuplicateRouting { routing: of, name: format!("Copy {}", self.roll(9)) },
            17 => Command::DeleteRouting(of),
            18 => Command::MoveRouting { routing: of, to: self.roll(4) },
            _ => {
                Command::SetUnits(if self.roll(2) == 0 { LengthUnit::Mm } else { LengthUnit::Inch })
            }
        })
    }

    fn via(&mut self) -> Via {
        let at = self.place();
        if self.roll(3) == 0 {
            Via::Clamp(Clamp { at, along: self.place(), ..Clamp::default() })
        } else {
            Via::Corner(Corner { at, ..Corner::default() })
        }
    }

    fn obstacle(&mut self, bay: &Bay) -> Obstacle {
        let (a, b) = (self.place(), self.place());
        let radius = self.roll(100) as f64 - 5.0;
        Obstacle {
            id: fresh_id("obstacle", |id| bay.obstacle(id).is_some()),
            name: "An obstacle".into(),
            nature: Nature::ALL[self.roll(4)].0,
            min_clearance_mm: Some(self.roll(50) as f64),
            group: self.pick(&bay.groups).map(|group| group.id.clone()),
            shape: match self.roll(3) {
                0 => Shape::Box { min: a, max: b },
                1 => Shape::Cylinder { from: a, to: b, radius },
                _ => Shape::Sphere { at: a, radius },
            },
            locked: None,
            extra: vec![],
        }
    }

    fn hose(&mut self, bay: &Bay, routing: String) -> Option<Command> {
        let (a, b) = (self.pick(&bay.ports)?.id.clone(), self.pick(&bay.ports)?.id.clone());
        let mut hose = run(straight_end(&a, None), straight_end(&b, None), vec![]);
        let taken = &bay.routings.iter().find(|o| o.id == routing)?.runs;
        hose.id = fresh_id("hose", |id| taken.iter().any(|run| run.id == id));
        Some(Command::AddRun { routing, run: Box::new(hose) })
    }

    fn renamed_port(&mut self, bay: &Bay) -> Option<Command> {
        let port = self.pick(&bay.ports)?;
        let (id, other) = (port.id.clone(), format!("p{}", self.roll(40)));
        let port = Box::new(Port { id: other, ..port.clone() });
        Some(Command::SetPort { id, port, label: "Rename port" })
    }
}

fn first_bay() -> Bay {
    let ports = vec![
        port("a", DVec3::ZERO, DVec3::X),
        port("b", DVec3::new(500.0, 300.0, 100.0), -DVec3::X),
    ];
    let via =
        vec![corner(250.0, 50.0, 0.0), clamp(DVec3::new(300.0, 200.0, 50.0), DVec3::Y, 12.0, None)];
    bay(ports, run(straight_end("a", None), straight_end("b", None), via))
}

#[test]
fn a_hundred_thousand_random_commands_and_all_the_way_back() {
    let first = first_bay();
    let bytes = write(&first).unwrap();
    let mut document = Document::new(first, None);
    let mut dice = Dice(Xorshift(0x9e37_79b9_7f4a_7c15));
    let (mut done, mut refused) = (0, 0);
    for step in 0..STEPS {
        let bay = document.bay().clone();
        let Some(command) = dice.command(&bay) else { continue };
        if let Ok(changed) = document.apply(&command) {
            done += usize::from(changed);
        } else {
            refused += 1;
            assert_eq!(*document.bay(), bay, "step {step}: refused, yet changed: {command:?}");
        }
        // What only moves is not read back by the command itself; so it is here.
        let faults = faults_of(document.bay());
        assert!(faults.is_empty(), "step {step}: {command:?}: {}", faults[0]);
        if dice.roll(50) == 0 {
            document.undo();
            if dice.roll(2) == 0 {
                document.redo();
            }
        }
    }
    assert!(done > STEPS / 3, "{done} done, {refused} refused");
    assert!(refused > 100, "{done} done, {refused} refused");
    while document.undo().is_some() {}
    assert_eq!(write(document.bay()).unwrap(), bytes);
    assert!(!document.is_changed());
}

//! Where the groups of a bay can be: the position as drawn and the combinations of their moves' extremes.

use crate::geom::{Rigid, unit_or_x};
use crate::model::{Bay, Motion, name_or};
use crate::units::Length;

/// One place of every group.
#[derive(Debug, Clone, PartialEq)]
pub struct Position {
    /// What moves to where, for reading.
    pub name: String,
    /// From where each group is drawn to where it is, in the order of `Bay::groups`.
    pub groups: Vec<Rigid>,
}

/// All positions that are looked at.
#[derive(Debug, Clone, PartialEq)]
pub struct Positions {
    /// The position as drawn first.
    pub all: Vec<Position>,
    /// How many combinations of extremes there are; more than are looked at where they are too many.
    pub combinations: f64,
}

/// The most combinations that are looked at one by one.
const MOST_COMBINATIONS: u32 = 64;

impl Positions {
    /// The positions of a bay. Above `MOST_COMBINATIONS` so many are chosen that any three moves still
    /// meet in all eight of their combinations; past 31 moves each is looked at by itself.
    pub fn of(bay: &Bay) -> Self {
        let moves: Vec<Moved<'_>> = moves(bay).collect();
        let all_extremes = moves.iter().fold(1.0, |combinations, _| 2.0 * combinations);
        let combinations = if moves.is_empty() { 0.0 } else { all_extremes };
        let mut all = vec![position(bay, &moves, |_| None)];
        all.extend(choose(moves.len()).iter().map(|row| position(bay, &moves, |k| row[k])));
        Self { all, combinations }
    }

    /// How many there are, without working them out.
    pub fn count_of(bay: &Bay) -> usize {
        1 + choose(moves(bay).count()).len()
    }

    /// Whether every combination of extremes is among them.
    pub fn is_whole(&self) -> bool {
        (self.all.len() - 1) as f64 >= self.combinations
    }

    /// Whether anything moves.
    pub fn move_anything(&self) -> bool {
        self.all.len() > 1
    }
}

/// All that moves, group by group.
fn moves(bay: &Bay) -> impl Iterator<Item = Moved<'_>> {
    let all = bay.groups.iter().enumerate();
    let all = all.flat_map(|(group, b)| b.moves.iter().map(move |motion| Moved { group, motion }));
    all.filter(Moved::moves)
}

/// For each position which extreme each move is at; none: as drawn.
fn choose(moves: usize) -> Vec<Vec<Option<Extreme>>> {
    let extreme = |second: bool| Some(if second { Extreme::Second } else { Extreme::First });
    match moves {
        0 => Vec::new(),
        1..=6 => (0..1_u32 << moves)
            .map(|row| (0..moves).map(|k| extreme(row >> k & 1 == 1)).collect())
            .collect(),
        // A Hadamard matrix and its opposite: an orthogonal array of strength three (A. Hedayat,
        // N. Sloane, J. Stufken, Orthogonal Arrays, 1999, from memory; the test counts).
        7..=31 => (0..MOST_COMBINATIONS)
            .map(|row| {
                let odd = |k: usize| (row & 31 & (k as u32 + 1)).count_ones() % 2 == 1;
                (0..moves).map(|k| extreme(odd(k) != (row >= 32))).collect()
            })
            .collect(),
        _ => (0..2 * moves)
            .map(|row| {
                (0..moves)
                    .map(|k| (k == row / 2).then_some(extreme(row % 2 == 1)).flatten())
                    .collect()
            })
            .collect(),
    }
}

/// One end of a move.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Extreme {
    First,
    Second,
}

#[derive(Debug, Clone, Copy)]
struct Moved<'a> {
    group: usize,
    motion: &'a Motion,
}

impl Moved<'_> {
    fn moves(&self) -> bool {
        match self.motion {
            Motion::Pivot { from_deg, to_deg, .. } => *from_deg != 0.0 || *to_deg != 0.0,
            Motion::Slide { from, to, .. } => {
                *from != glam::DVec3::ZERO || *to != glam::DVec3::ZERO
            }
        }
    }

    fn at(&self, extreme: Extreme) -> Rigid {
        match self.motion {
            Motion::Pivot { about, axis, from_deg, to_deg, .. } => {
                let angle = if extreme == Extreme::First { *from_deg } else { *to_deg };
                Rigid::pivoted(*about, unit_or_x(*axis), angle.to_radians())
            }
            Motion::Slide { from, to, .. } => {
                Rigid::shifted(if extreme == Extreme::First { *from } else { *to })
            }
        }
    }

    fn name(&self, bay: &Bay, extreme: Extreme) -> String {
        let signed = |value: f64, text: String| {
            if value < 0.0 { format!("\u{2212}{text}") } else { format!("+{text}") }
        };
        match self.motion {
            Motion::Pivot { from_deg, to_deg, .. } => {
                let angle = if extreme == Extreme::First { *from_deg } else { *to_deg };
                format!("pivoted {}", signed(angle, format!("{}°", angle.abs())))
            }
            Motion::Slide { from, to, .. } => {
                let by = if extreme == Extreme::First { *from } else { *to };
                let along =
                    ["X", "Y", "Z"].into_iter().zip(by.to_array()).filter(|(_, by)| *by != 0.0);
                let parts: Vec<String> = along
                    .map(|(axis, by)| {
                        let far = Length::from_mm(by.abs()).show(bay.show_units);
                        format!("{axis} {}", signed(by, far))
                    })
                    .collect();
                if parts.is_empty() {
                    "not slid".to_owned()
                } else {
                    format!("slid {}", parts.join(", "))
                }
            }
        }
    }
}

fn position(bay: &Bay, moves: &[Moved<'_>], at: impl Fn(usize) -> Option<Extreme>) -> Position {
    let mut groups = vec![Rigid::IDENTITY; bay.groups.len()];
    let mut said: Vec<(usize, Vec<String>)> = Vec::new();
    for (k, moved) in moves.iter().enumerate() {
        let Some(extreme) = at(k) else { continue };
        // In the order in which the group lists them.
        groups[moved.group] = moved.at(extreme).after(&groups[moved.group]);
        let words = moved.name(bay, extreme);
        match said.last_mut() {
            Some((group, list)) if *group == moved.group => list.push(words),
            _ => said.push((moved.group, vec![words])),
        }
    }
    let named = said.iter().map(|(group, words)| {
        let group = &bay.groups[*group];
        format!("{} {}", name_or(&group.name, &group.id), words.join(" and "))
    });
    let name = named.collect::<Vec<_>>().join("; ");
    Position { name: if name.is_empty() { "as drawn".to_owned() } else { name }, groups }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn few_moves_are_combined_in_full() {
        for moves in 1..=6 {
            let mut rows = choose(moves);
            assert_eq!(rows.len(), 1 << moves);
            rows.sort_by_key(|row| {
                row.iter().map(|e| *e == Some(Extreme::Second)).collect::<Vec<_>>()
            });
            rows.dedup();
            assert_eq!(rows.len(), 1 << moves, "all different");
        }
        assert!(choose(0).is_empty());
    }

    #[test]
    fn of_many_moves_any_three_meet_in_all_their_combinations() {
        for moves in [7, 12, 31] {
            let rows = choose(moves);
            assert_eq!(rows.len(), MOST_COMBINATIONS as usize);
            for a in 0..moves {
                for b in 0..a {
                    for c in 0..b {
                        let mut count = [0; 8];
                        for row in &rows {
                            let bit = |k: usize| usize::from(row[k] == Some(Extreme::Second));
                            count[4 * bit(a) + 2 * bit(b) + bit(c)] += 1;
                        }
                        assert_eq!(count, [8; 8], "{a} {b} {c} of {moves}");
                    }
                }
            }
        }
    }

    #[test]
    fn very_many_moves_are_looked_at_one_by_one() {
        let rows = choose(40);
        assert_eq!(rows.len(), 80);
        assert!(rows.iter().all(|row| row.iter().flatten().count() == 1));
    }
}

//! A hose's axis as a chain of straights and arcs, made ready for looking up what is near it.

use glam::DVec3;

use super::nearest::{
    Chord, Foot, Near, Placed, ReachFrom, first_reach, first_reach_by_feet, piece_piece,
    point_piece,
};
use super::{Bounds, Piece};

/// Pieces in order, each with the distance of its start from the start of the whole, and a tree of
/// boxes over them: neighbours along the hose are neighbours in the bay.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Chain {
    pieces: Vec<(f64, Piece)>,
    chords: Vec<Chord>,
    /// In preorder: of a node over `m` pieces the left child is next, the right one `2 · (left's
    /// pieces)` places on.
    boxes: Vec<Bounds>,
}

/// The nearest places of two chains.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChainNear {
    /// Distance of the axes.
    pub distance: f64,
    /// Where on the first, from its start.
    pub along: f64,
    /// Where on the second, from its start.
    pub along_other: f64,
    /// The place on the first.
    pub point: DVec3,
    /// The place on the second.
    pub point_other: DVec3,
}

/// Axes nearer than this run into each other: no distance is less.
const TOUCHING_MM: f64 = 1e-12;

/// A node of the tree: the pieces from `from` to `to`, and its box.
#[derive(Clone, Copy)]
struct Node {
    from: usize,
    to: usize,
    place: usize,
}

impl Node {
    fn children(self) -> Option<[Self; 2]> {
        if self.to - self.from < 2 {
            return None;
        }
        let middle = usize::midpoint(self.from, self.to);
        Some([
            Self { to: middle, place: self.place + 1, ..self },
            Self { from: middle, place: self.place + 2 * (middle - self.from), ..self },
        ])
    }
}

impl Chain {
    /// The chain of these pieces, each with the distance of its start along the whole.
    pub fn new(pieces: impl IntoIterator<Item = (f64, Piece)>) -> Self {
        let pieces: Vec<_> = pieces.into_iter().collect();
        let mut boxes = vec![Bounds::NOTHING; (2 * pieces.len()).saturating_sub(1)];
        if !pieces.is_empty() {
            box_up(&pieces, &mut boxes, Node { from: 0, to: pieces.len(), place: 0 });
        }
        let chords = pieces.iter().map(|(_, piece)| Chord::of(piece)).collect();
        Self { pieces, chords, boxes }
    }

    /// The pieces, each with the distance of its start along the whole.
    pub fn pieces(&self) -> &[(f64, Piece)] {
        &self.pieces
    }

    /// The box around all of it.
    pub fn bounds(&self) -> Bounds {
        self.boxes.first().copied().unwrap_or(Bounds::NOTHING)
    }

    /// Where it ends.
    pub fn end(&self) -> f64 {
        self.pieces.last().map_or(0.0, |(at, piece)| at + piece.length())
    }

    /// The part from `from` to `to`; places along it stay those along the whole.
    #[must_use]
    pub fn part(&self, from: f64, to: f64) -> Self {
        Self::new(self.pieces.iter().filter_map(|(at, piece)| {
            let (a, b) = ((from - at).max(0.0), (to - at).min(piece.length()));
            (b > a || (b == a && from == to)).then(|| (at + a, piece.part(a, b)))
        }))
    }

    fn root(&self) -> Option<Node> {
        (!self.pieces.is_empty()).then_some(Node { from: 0, to: self.pieces.len(), place: 0 })
    }

    /// The pieces with their places along the whole, and what is told of them quickly.
    pub fn links(&self) -> impl Iterator<Item = Link<'_>> {
        self.pieces.iter().zip(&self.chords).map(|((at, piece), chord)| Link {
            at: *at,
            piece,
            chord,
        })
    }

    /// The nearest places of the chain and an obstacle: the place along the chain is
    /// [`Near::along`]. `None` where nothing is nearer than `enough`.
    pub fn nearest(&self, obstacle: &Placed, enough: f64) -> Option<Near> {
        self.links().fold(None, |best: Option<Near>, link| {
            link.nearest(obstacle, best.map_or(enough, |near| near.distance)).or(best)
        })
    }

    /// The nearest places of two chains; `None` where nothing is nearer than `enough`.
    pub fn nearest_chain(&self, other: &Self, enough: f64) -> Option<ChainNear> {
        if enough <= 0.0 {
            return None;
        }
        let (one, two) = (self.root()?, other.root()?);
        let mut search = Search { one: self, two: other, enough, near: Vec::new() };
        search.look(one, two);
        search.closer()
    }

    /// The distance from a point to the chain, infinite for an empty one, with the nearest place and
    /// the straight that it lies on. The nearer of two boxes is looked into first, so that the other
    /// need mostly not be.
    fn foot(&self, p: DVec3) -> Foot {
        let mut best = Foot { distance: f64::INFINITY, nearest: p, straight: None };
        let away = |node: Node| (self.boxes[node.place].distance_to(p), node);
        let mut open: Vec<(f64, Node)> = self.root().map(away).into_iter().collect();
        while let Some((least, node)) = open.pop() {
            if least >= best.distance {
                continue;
            }
            let Some(children) = node.children() else {
                let piece = &self.pieces[node.from].1;
                let place = piece.point_at(point_piece(p, piece));
                if place.distance(p) < best.distance {
                    let straight = matches!(piece, Piece::Line { .. }).then_some(node.from);
                    best = Foot { distance: place.distance(p), nearest: place, straight };
                }
                continue;
            };
            let [one, other] = children.map(away);
            open.extend(if one.0 < other.0 { [other, one] } else { [one, other] });
        }
        best
    }

    /// The first place from one end whose distance by `field` is `target` or more; see
    /// [`first_reach`].
    pub fn first_reach(
        &self,
        from: ReachFrom,
        target: f64,
        field: &impl Fn(DVec3) -> (f64, DVec3),
    ) -> Option<f64> {
        self.reach(from, |piece| first_reach(piece, from, target, field))
    }

    /// The first place from one end that is `target` or more away from another chain. Beside straights
    /// it is found at once, however long they are.
    pub fn first_away_from(&self, other: &Self, from: ReachFrom, target: f64) -> Option<f64> {
        let field = |p: DVec3| other.foot(p);
        self.reach(from, |piece| first_reach_by_feet(piece, from, target, &field))
    }

    fn reach(&self, from: ReachFrom, of: impl Fn(&Piece) -> Option<f64>) -> Option<f64> {
        let reach = |(at, piece): &(f64, Piece)| Some(at + of(piece)?);
        match from {
            ReachFrom::Start => self.pieces.iter().find_map(reach),
            ReachFrom::End => self.pieces.iter().rev().find_map(reach),
        }
    }
}

/// A piece of a chain.
#[derive(Debug, Clone, Copy)]
pub struct Link<'a> {
    /// Where it begins along the chain.
    pub at: f64,
    /// The piece.
    pub piece: &'a Piece,
    chord: &'a Chord,
}

impl Link<'_> {
    /// The box around it.
    pub fn bounds(&self) -> Bounds {
        self.chord.bounds()
    }

    /// The nearest places of the piece and an obstacle, as [`Chain::nearest`].
    #[inline]
    pub fn nearest(&self, obstacle: &Placed, enough: f64) -> Option<Near> {
        if obstacle.least(self.chord) >= enough {
            return None;
        }
        let near = obstacle.nearest(self.piece, enough)?;
        Some(Near { along: self.at + near.along, ..near })
    }
}

/// Down both trees at once, then from the pair of pieces that may be nearest on.
struct Search<'a> {
    one: &'a Chain,
    two: &'a Chain,
    enough: f64,
    /// Pairs that may be nearer than `enough`, with the least distance they can have.
    near: Vec<(f64, usize, usize)>,
}

impl Search<'_> {
    fn look(&mut self, one: Node, two: Node) {
        if self.one.boxes[one.place].are_apart(&self.two.boxes[two.place], self.enough) {
            return;
        }
        let larger_first = one.to - one.from >= two.to - two.from;
        match (one.children(), two.children()) {
            (Some([left, right]), children) if larger_first || children.is_none() => {
                self.look(left, two);
                self.look(right, two);
            }
            (_, Some([left, right])) => {
                self.look(one, left);
                self.look(one, right);
            }
            _ => {
                let (one, two) = (one.from, two.from);
                let least = self.one.chords[one].least_to(&self.two.chords[two]);
                if least < self.enough {
                    self.near.push((least, one, two));
                }
            }
        }
    }

    fn closer(mut self) -> Option<ChainNear> {
        self.near.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut best = None;
        for (least, one, two) in self.near {
            // Nothing is nearer than what touches.
            if least >= self.enough || self.enough <= TOUCHING_MM {
                break;
            }
            let ((a, piece), (b, other)) = (&self.one.pieces[one], &self.two.pieces[two]);
            if let Some((near, along)) = piece_piece(piece, other, self.enough) {
                self.enough = near.distance;
                best = Some(ChainNear {
                    distance: near.distance,
                    along: a + near.along,
                    along_other: b + along,
                    point: near.on_piece,
                    point_other: near.on_other,
                });
            }
        }
        best
    }
}

fn box_up(pieces: &[(f64, Piece)], boxes: &mut [Bounds], node: Node) -> Bounds {
    let around = match node.children() {
        None => Bounds::of_piece(&pieces[node.from].1),
        Some([left, right]) => box_up(pieces, boxes, left).with(&box_up(pieces, boxes, right)),
    };
    boxes[node.place] = around;
    around
}

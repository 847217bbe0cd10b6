//! A hose's axis as a chain of straights and arcs, made ready for looking up what is near it.

use glam::DVec3;

use super::nearest::{Near, Placed, ReachFrom, first_reach, piece_piece, point_piece};
use super::{Bounds, Piece};

/// Pieces in order, each with the distance of its start from the start of the whole, and a tree of
/// boxes over them: neighbours along the hose are neighbours in the bay.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Chain {
    pieces: Vec<(f64, Piece)>,
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
        Self { pieces, boxes }
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

    /// The nearest places of the chain and a solid: the place along the chain is
    /// [`Near::along`]. `None` where nothing is nearer than `enough`.
    pub fn nearest(&self, solid: &Placed, enough: f64) -> Option<Near> {
        let mut best = None;
        let mut enough = enough;
        let mut open = Stack::new(self.root()?);
        while let Some(node) = open.pop() {
            // Boxes that overlap tell nothing of depths.
            let apart = self.boxes[node.place].distance(solid.bounds());
            if apart > 0.0 && apart >= enough {
                continue;
            }
            let Some([left, right]) = node.children() else {
                let (at, piece) = &self.pieces[node.from];
                if solid.least(piece) >= enough {
                    continue;
                }
                if let Some(near) = solid.nearest(piece, enough) {
                    enough = near.distance;
                    best = Some(Near { along: at + near.along, ..near });
                }
                continue;
            };
            open.push(right);
            open.push(left);
        }
        best
    }

    /// The nearest places of two chains; `None` where nothing is nearer than `enough`.
    pub fn nearest_chain(&self, other: &Self, enough: f64) -> Option<ChainNear> {
        let mut best = None;
        let mut enough = enough;
        let mut open = vec![(self.root()?, other.root()?)];
        while let Some((one, two)) = open.pop() {
            if self.boxes[one.place].distance(&other.boxes[two.place]) >= enough {
                continue;
            }
            let larger_first = one.to - one.from >= two.to - two.from;
            match (one.children(), two.children()) {
                (Some(halves), children) if larger_first || children.is_none() => {
                    open.extend(halves.map(|half| (half, two)));
                }
                (_, Some(halves)) => open.extend(halves.map(|half| (one, half))),
                _ => {
                    let ((a, piece), (b, with)) = (self.pieces[one.from], other.pieces[two.from]);
                    if let Some((near, along)) = piece_piece(&piece, &with, enough) {
                        enough = near.distance;
                        best = Some(ChainNear {
                            distance: near.distance,
                            along: a + near.along,
                            along_other: b + along,
                            point: near.on_piece,
                            point_other: near.on_other,
                        });
                    }
                }
            }
        }
        best
    }

    /// The distance from a point to the chain, and the nearest place on it; infinitely far for an
    /// empty one.
    pub fn distance_from(&self, p: DVec3) -> (f64, DVec3) {
        let mut best = (f64::INFINITY, p);
        let mut open: Vec<Node> = self.root().into_iter().collect();
        while let Some(node) = open.pop() {
            if self.boxes[node.place].distance_to(p) >= best.0 {
                continue;
            }
            let Some(children) = node.children() else {
                let piece = &self.pieces[node.from].1;
                let place = piece.point_at(point_piece(p, piece));
                if place.distance(p) < best.0 {
                    best = (place.distance(p), place);
                }
                continue;
            };
            open.extend(children);
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
        let reach =
            |(at, piece): &(f64, Piece)| Some(at + first_reach(piece, from, target, field)?);
        match from {
            ReachFrom::Start => self.pieces.iter().find_map(reach),
            ReachFrom::End => self.pieces.iter().rev().find_map(reach),
        }
    }
}

/// Nodes still to look at; a tree over more pieces than there are atoms is not this deep.
struct Stack {
    nodes: [Node; 68],
    count: usize,
}

impl Stack {
    fn new(root: Node) -> Self {
        Self { nodes: [root; 68], count: 1 }
    }

    fn push(&mut self, node: Node) {
        if let Some(free) = self.nodes.get_mut(self.count) {
            *free = node;
            self.count += 1;
        }
    }

    fn pop(&mut self) -> Option<Node> {
        self.count = self.count.checked_sub(1)?;
        Some(self.nodes[self.count])
    }
}

fn box_up(pieces: &[(f64, Piece)], boxes: &mut [Bounds], node: Node) -> Bounds {
    let around = match node.children() {
        None => Bounds::of_piece(&pieces[node.from].1),
        Some([left, right]) => {
            box_up(pieces, boxes, left).with(&box_up(pieces, boxes, right))
        }
    };
    boxes[node.place] = around;
    around
}

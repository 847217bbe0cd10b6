//! Many small meshes as a few: thousands of small ones would each be looked at in every frame, and one
//! large one would be put together again whenever a single part of it changes.

use std::sync::Arc;

use eframe::egui::{Mesh, Rect};

/// Meshes that follow each other, put together in heaps.
#[derive(Debug, Clone, Default)]
pub(super) struct Heaps(Vec<Heap>);

#[derive(Debug, Clone)]
struct Heap {
    parts: Vec<Arc<Mesh>>,
    whole: Piece,
}

/// A mesh and the area about it.
#[derive(Debug, Clone)]
pub(super) struct Piece {
    pub(super) mesh: Arc<Mesh>,
    pub(super) about: Rect,
}

impl From<Mesh> for Piece {
    fn from(mesh: Mesh) -> Self {
        Self { about: mesh.calc_bounds(), mesh: Arc::new(mesh) }
    }
}

/// About so many parts are in one heap.
const IN_A_HEAP: u64 = 12;

/// How many that went may lie between two that are kept.
const AHEAD: usize = 64;

/// The next of `old` from `next` on that `is` the one looked for; `next` then stands behind it. What is kept
/// comes in the same order; between it may be what went, a few at a time.
pub(super) fn next_kept<'a, T>(
    old: &'a [T],
    next: &mut usize,
    is: impl Fn(&T) -> bool,
) -> Option<&'a T> {
    let rest = old.get(*next..)?;
    let found = rest.iter().take(AHEAD).position(is)?;
    *next += found + 1;
    rest.get(found)
}

impl Heaps {
    /// The heaps, in the order of their parts.
    pub(super) fn wholes(&self) -> impl Iterator<Item = &Piece> {
        self.0.iter().map(|heap| &heap.whole)
    }

    /// Puts these parts together; heaps of the same parts as before are kept.
    pub(super) fn heap_up(&mut self, parts: &[&Arc<Mesh>]) {
        let old = std::mem::take(&mut self.0);
        let mut next = 0;
        let heap = |parts: &[&Arc<Mesh>]| {
            let known = next_kept(&old, &mut next, |heap: &Heap| heap.is_of(parts));
            known.cloned().unwrap_or_else(|| Heap::of(parts))
        };
        self.0 = parts.chunk_by(|_, first| !begins(first)).map(heap).collect();
    }
}

/// Whether a heap begins with this part. That follows from its place in memory, so that one part more or
/// less changes its own heap only.
fn begins(part: &Arc<Mesh>) -> bool {
    let place = (Arc::as_ptr(part) as usize / align_of::<Mesh>()) as u64;
    // Multiplied by an odd number, all of its digits count (Knuth's multiplicative hashing).
    (place.wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 40).is_multiple_of(IN_A_HEAP)
}

impl Heap {
    fn of(parts: &[&Arc<Mesh>]) -> Self {
        let mut whole = Mesh::default();
        whole.reserve_vertices(parts.iter().map(|mesh| mesh.vertices.len()).sum());
        whole.indices.reserve(parts.iter().map(|mesh| mesh.indices.len()).sum());
        for mesh in parts {
            whole.append_ref(mesh);
        }
        let parts = parts.iter().map(|mesh| Arc::clone(mesh)).collect();
        Self { parts, whole: Piece::from(whole) }
    }

    fn is_of(&self, parts: &[&Arc<Mesh>]) -> bool {
        self.parts.len() == parts.len()
            && self.parts.iter().zip(parts).all(|(a, b)| Arc::ptr_eq(a, b))
    }
}

#[cfg(test)]
mod tests {
    use eframe::egui::{Color32, pos2};

    use super::*;

    fn part(x: f32) -> Arc<Mesh> {
        let mut mesh = Mesh::default();
        for k in 0..3 {
            mesh.colored_vertex(pos2(x, k as f32), Color32::BLACK);
        }
        mesh.add_triangle(0, 1, 2);
        Arc::new(mesh)
    }

    fn told(heaps: &Heaps) -> Vec<f32> {
        let parts = heaps.wholes().map(|whole| &whole.mesh).flat_map(|whole| {
            whole.indices.iter().map(|index| whole.vertices[*index as usize].pos.x)
        });
        parts.collect()
    }

    #[test]
    fn all_parts_are_there_in_their_order_and_most_heaps_stay() {
        let mut parts: Vec<Arc<Mesh>> = (0..2000).map(|k| part(k as f32)).collect();
        let mut heaps = Heaps::default();
        heaps.heap_up(&parts.iter().collect::<Vec<_>>());
        let before: Vec<Arc<Mesh>> = heaps.wholes().map(|whole| Arc::clone(&whole.mesh)).collect();
        assert!(before.len() > 60 && before.len() < 400, "{}", before.len());
        parts[700] = part(-1.0);
        parts.remove(1200);
        parts.insert(50, part(-2.0));
        heaps.heap_up(&parts.iter().collect::<Vec<_>>());
        let now = parts.iter().flat_map(|part| [part.vertices[0].pos.x; 3]).collect::<Vec<_>>();
        assert_eq!(told(&heaps), now);
        let stays = |whole: &&Piece| before.iter().any(|old| Arc::ptr_eq(old, &whole.mesh));
        let (kept, all) = (heaps.wholes().filter(stays).count(), heaps.wholes().count());
        // Three changes touch three heaps, and may begin or end as many.
        assert!(kept + 6 >= all, "{kept} of {all}");
    }
}

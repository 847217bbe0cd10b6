//! Where a port is, by its id.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

use crate::model::{Bay, Port};

/// Below this many ports a look through them is quicker than an index.
const INDEX_FROM: usize = 16;

/// Remembers where ports stand in their bay. Only a hint: what it says is looked at before it is
/// believed, so that it may be kept while the bay changes.
#[derive(Debug, Clone, Default)]
pub(super) struct PortIndex {
    /// From the hash of an id to the port's place.
    places: HashMap<u64, usize, BuildHasherDefault<Hashed>>,
}

impl PortIndex {
    /// The port of this id.
    pub(super) fn find<'a>(&mut self, bay: &'a Bay, id: &str) -> Option<&'a Port> {
        if bay.ports.len() < INDEX_FROM {
            return bay.port(id);
        }
        let hash = hash_of(id);
        let hinted = |places: &HashMap<u64, usize, _>| {
            bay.ports.get(*places.get(&hash)?).filter(|port| port.id == id)
        };
        if let Some(port) = hinted(&self.places) {
            return Some(port);
        }
        self.places.clear();
        let ports = bay.ports.iter().enumerate();
        self.places.extend(ports.rev().map(|(i, port)| (hash_of(&port.id), i)));
        // Two ids of one hash: only the first is in the index.
        hinted(&self.places).or_else(|| bay.port(id))
    }
}

/// The FNV-1a hash: ids are short, and a poor one only costs time here.
fn hash_of(id: &str) -> u64 {
    id.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

/// The keys are hashes already.
#[derive(Debug, Clone, Default)]
struct Hashed(u64);

impl Hasher for Hashed {
    fn finish(&self) -> u64 {
        self.0
    }

    fn write(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.0 = self.0.rotate_left(8) ^ u64::from(*byte);
        }
    }

    fn write_u64(&mut self, hash: u64) {
        self.0 = hash;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bay(count: usize) -> Bay {
        let port = |i: usize| Port {
            id: format!("p{i}"),
            name: String::new(),
            at: glam::DVec3::new(i as f64, 0.0, 0.0),
            toward: glam::DVec3::X,
            dash: None,
            group: None,
            on: None,
            locked: None,
            extra: Vec::new(),
        };
        Bay { ports: (0..count).map(port).collect(), ..Bay::default() }
    }

    #[test]
    fn it_finds_what_a_look_through_finds_while_the_bay_changes() {
        let mut index = PortIndex::default();
        let mut bay = bay(40);
        for round in 0..40 {
            for i in 0..41 {
                let id = format!("p{i}");
                assert_eq!(index.find(&bay, &id), bay.port(&id), "round {round}, {id}");
            }
            let count = bay.ports.len();
            bay.ports.swap(round % count, (7 * round) % count);
            if round % 5 == 0 {
                bay.ports.remove(round / 2);
            }
        }
    }

    #[test]
    fn of_two_ports_with_one_id_the_first_counts() {
        let mut bay = bay(40);
        bay.ports[30].id = "p3".into();
        assert_eq!(PortIndex::default().find(&bay, "p3"), bay.port("p3"));
    }
}

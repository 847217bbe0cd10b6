//! From the bytes of a file to a bay, or to all that is wrong with them.

pub(super) mod context;
pub(super) mod cursor;
pub(super) mod doubts;
pub(super) mod reference;
pub(super) mod unique;

use crate::model::Bay;

use super::fault::{Faults, ReadError};
use super::json::{Json, Node, parse, quoted};
use super::mesh::MeshSource;
use super::mesh_limits::mesh_faults;
use super::things::Thing;
use super::{FORMAT, MAX_FILE_BYTES, VERSION};

use context::Context;
use cursor::At;

/// Reads a bay file. Meshes that it names are asked of `meshes`.
///
/// # Errors
/// Everything that the contract refuses (§1), each fault with its place; see [`ReadError`].
pub fn read(bytes: &[u8], meshes: &dyn MeshSource) -> Result<Bay, ReadError> {
    if bytes.len() as u64 > MAX_FILE_BYTES {
        return Err(ReadError::TooLarge { limit: format!("{} MiB", MAX_FILE_BYTES >> 20) });
    }
    let root = parse(bytes)?;
    let cx = Context::new(meshes);
    let file = At::root(&root, &cx);
    if !is_ours(&file) {
        return Err(ReadError::Faults(Faults(cx.into_faults())));
    }
    twice(&file);
    let f = file.fields("");
    f.get("format", |_| ());
    f.get("version", |_| ());
    let bay = Bay::read(&f);
    cx.check_references(&bay);
    let mut faults = cx.into_faults();
    faults.extend(mesh_faults(&bay));
    match faults {
        faults if faults.is_empty() => Ok(bay),
        faults => Err(ReadError::Faults(Faults(faults))),
    }
}

/// Whether the file is a bay of a version that this program may know. Where it is not, no other
/// fault is worth telling.
fn is_ours(file: &At<'_>) -> bool {
    let Json::Object(_) = &file.node.json else {
        file.wrong("a bay: an object with \"format\", \"version\" and \"routings\"");
        return false;
    };
    match file.node.member("format").map(|node| &node.json) {
        Some(Json::Text(format)) if format == FORMAT => {}
        Some(_) => {
            file.fields("").get("format", |at| at.wrong(&quoted(FORMAT)));
            return false;
        }
        None => file.fields("").missing("format", &quoted(FORMAT)),
    }
    match file.node.member("version").and_then(Node::as_f64) {
        Some(version) if version > f64::from(VERSION) => {
            file.fields("").get("version", |at| {
                at.wrong_hint(
                    &VERSION.to_string(),
                    format!(
                        "this file is of version {version}; this program reads version {VERSION}: get a newer Hosewright"
                    ),
                );
            });
            false
        }
        Some(version) if version == f64::from(VERSION) => true,
        _ => {
            let fields = file.fields("");
            if fields.get("version", |at| at.wrong(&VERSION.to_string())).is_none() {
                fields.missing("version", &VERSION.to_string());
            }
            true
        }
    }
}

/// Finds fault with every key that stands twice in one object, at any depth.
fn twice(at: &At<'_>) {
    match &at.node.json {
        Json::List(items) => {
            for (index, item) in items.iter().enumerate() {
                twice(&at.item(index, item));
            }
        }
        Json::Object(entries) => {
            let mut seen = std::collections::BTreeSet::new();
            for (key, node) in entries {
                let member = at.member(key, node);
                if !seen.insert(key) {
                    member.fault(
                        format!("the key {} again", quoted(key)),
                        "each key once in an object",
                        None,
                    );
                }
                twice(&member);
            }
        }
        _ => {}
    }
}

//! What a line of a table says of its key.

use super::kind::{Name, Text};
use super::{At, Entries, Fields, Item, Kind, Thing, Tree, Unique};
use crate::document::file::json::quoted;
use crate::document::file::read::doubts::Family;
use crate::document::file::read::reference::Wanted;
use crate::model::Extra;

/// The way from the file to a field of the model, and back.
pub(super) trait Key<T> {
    /// From the members of an object; a stand-in where it is faulty.
    fn read(&self, f: &Fields<'_>) -> T;

    fn write<'a>(&self, value: &'a T, to: &mut Entries<'a>);
}

/// It must be there.
pub(super) struct Must<K>(pub(super) &'static str, pub(super) K);

impl<K: Kind<Out: Default>> Key<K::Out> for Must<K> {
    fn read(&self, f: &Fields<'_>) -> K::Out {
        f.must(self.0, &self.1).unwrap_or_else(|| self.1.stand_in())
    }

    fn write<'a>(&self, value: &'a K::Out, to: &mut Entries<'a>) {
        to.put(self.0, self.1.tree(value));
    }
}

/// It must be there in a file, though the catalogue can do without.
pub(super) struct MustInFile<K>(pub(super) &'static str, pub(super) K);

impl<K: Kind> Key<Option<K::Out>> for MustInFile<K> {
    fn read(&self, f: &Fields<'_>) -> Option<K::Out> {
        f.must(self.0, &self.1)
    }

    fn write<'a>(&self, value: &'a Option<K::Out>, to: &mut Entries<'a>) {
        to.maybe(self.0, value.as_ref().map(|value| self.1.tree(value)));
    }
}

/// It may be absent, which says that nothing is known or wanted.
pub(super) struct Maybe<K>(pub(super) &'static str, pub(super) K);

impl<K: Kind> Key<Option<K::Out>> for Maybe<K> {
    fn read(&self, f: &Fields<'_>) -> Option<K::Out> {
        f.maybe(self.0, &self.1)
    }

    fn write<'a>(&self, value: &'a Option<K::Out>, to: &mut Entries<'a>) {
        to.maybe(self.0, value.as_ref().map(|value| self.1.tree(value)));
    }
}

/// Its absence says this; on writing it always stands.
pub(super) struct Or<K: Kind>(pub(super) &'static str, pub(super) K, pub(super) K::Out);

impl<K: Kind<Out: Clone + Default>> Key<K::Out> for Or<K> {
    fn read(&self, f: &Fields<'_>) -> K::Out {
        let stand_in = || if f.has(self.0) { self.1.stand_in() } else { self.2.clone() };
        f.maybe(self.0, &self.1).unwrap_or_else(stand_in)
    }

    fn write<'a>(&self, value: &'a K::Out, to: &mut Entries<'a>) {
        to.put(self.0, self.1.tree(value));
    }
}

/// Its absence says this, and this is said by its absence.
pub(super) struct Unless<K: Kind>(pub(super) &'static str, pub(super) K, pub(super) K::Out);

impl<K: Kind<Out: Clone + PartialEq>> Key<K::Out> for Unless<K> {
    fn read(&self, f: &Fields<'_>) -> K::Out {
        f.maybe(self.0, &self.1).unwrap_or_else(|| self.2.clone())
    }

    fn write<'a>(&self, value: &'a K::Out, to: &mut Entries<'a>) {
        to.maybe(self.0, (*value != self.2).then(|| self.1.tree(value)));
    }
}

/// A line of text, empty where absent.
pub(super) fn text(key: &'static str) -> Unless<Text> {
    Unless(key, Text::Line, String::new())
}

/// Text of any number of lines, empty where absent.
pub(super) fn lines(key: &'static str) -> Unless<Text> {
    Unless(key, Text::Lines, String::new())
}

/// The id of an item of a list.
pub(super) struct Id;

impl Key<String> for Id {
    fn read(&self, f: &Fields<'_>) -> String {
        let (cx, name) = (f.at.cx, Name("an id"));
        let id = f.must("id", &name).unwrap_or_default();
        match f.seen {
            Some(seen) if id.is_empty() => seen.doubt_ids(cx),
            Some(seen) => {
                f.once("id", &id, &quoted(&id), "an id that no other in this list has");
                if !f.are_sound(["id"]) {
                    seen.doubt_sizes(cx, &id);
                }
            }
            None => {}
        }
        id
    }

    fn write<'a>(&self, value: &'a String, to: &mut Entries<'a>) {
        to.put("id", value.as_str());
    }
}

/// The id of something that has to exist elsewhere in the file, and what that is in words. Where the
/// model can do without, it may be absent.
pub(super) struct Refers(
    pub(super) &'static str,
    pub(super) &'static str,
    pub(super) fn(String) -> Wanted,
);

impl Key<Option<String>> for Refers {
    fn read(&self, f: &Fields<'_>) -> Option<String> {
        let read = |at: &At<'_>| {
            let id = Name(self.1).accept(at)?;
            at.want(self.2(id.clone()));
            Some(id)
        };
        f.get(self.0, read).flatten()
    }

    fn write<'a>(&self, value: &'a Option<String>, to: &mut Entries<'a>) {
        to.maybe(self.0, value.as_deref());
    }
}

impl Key<String> for Refers {
    fn read(&self, f: &Fields<'_>) -> String {
        if !f.has(self.0) {
            f.missing(self.0, &Name(self.1).expected());
        }
        Key::<Option<String>>::read(self, f).unwrap_or_default()
    }

    fn write<'a>(&self, value: &'a String, to: &mut Entries<'a>) {
        to.put(self.0, value.as_str());
    }
}

/// A thing in an object of its own; left out where nothing is in it.
pub(super) struct Part(pub(super) &'static str, pub(super) &'static str);

impl Part {
    fn find<T: Thing>(&self, f: &Fields<'_>) -> Option<T> {
        f.get(self.0, |at| T::read(&at.fields(self.1)))
    }
}

impl<T: Thing + Default> Key<T> for Part {
    fn read(&self, f: &Fields<'_>) -> T {
        self.find(f).unwrap_or_default()
    }

    fn write<'a>(&self, value: &'a T, to: &mut Entries<'a>) {
        let mut members = Entries::default();
        value.write(&mut members);
        to.maybe(self.0, (!members.is_empty()).then_some(members));
    }
}

impl<T: Thing> Key<Option<T>> for Part {
    fn read(&self, f: &Fields<'_>) -> Option<T> {
        self.find(f)
    }

    fn write<'a>(&self, value: &'a Option<T>, to: &mut Entries<'a>) {
        to.maybe(self.0, value.as_ref().map(Item::tree));
    }
}

/// A thing whose members stand among those of the thing that holds it.
pub(super) struct Flat;

impl<T: Thing> Key<T> for Flat {
    fn read(&self, f: &Fields<'_>) -> T {
        T::read(f)
    }

    fn write<'a>(&self, value: &'a T, to: &mut Entries<'a>) {
        value.write(to);
    }
}

/// A list of things, with the words for one and for many; left out where it is empty.
pub(super) struct List {
    key: &'static str,
    one: &'static str,
    many: &'static str,
    family: Option<Family>,
}

impl List {
    pub(super) fn new(key: &'static str, one: &'static str, many: &'static str) -> Self {
        Self { key, one, many, family: None }
    }

    /// Of things that other parts of the file refer to.
    pub(super) fn of(self, family: Family) -> Self {
        Self { family: Some(family), ..self }
    }
}

impl<T: Item> Key<Vec<T>> for List {
    fn read(&self, f: &Fields<'_>) -> Vec<T> {
        let read = |at: &At<'_>| {
            let seen = Unique::new(self.family);
            let Some(items) = at.items(&format!("a list of {}", self.many)) else {
                seen.doubt_ids(at.cx);
                return Vec::new();
            };
            let object = format!("{}: an object", self.one);
            items.iter().map(|item| T::read_item(item, &object, &seen)).collect()
        };
        f.get(self.key, read).unwrap_or_default()
    }

    fn write<'a>(&self, value: &'a Vec<T>, to: &mut Entries<'a>) {
        let trees = || Tree::List(value.iter().map(Item::tree).collect());
        to.maybe(self.key, (!value.is_empty()).then(trees));
    }
}

/// A list that must be there with something in it.
pub(super) struct AtLeastOne(pub(super) List);

impl<T: Item> Key<Vec<T>> for AtLeastOne {
    fn read(&self, f: &Fields<'_>) -> Vec<T> {
        let items = self.0.read(f);
        let expected = format!("a list of {}, at least one", self.0.many);
        let is_empty = |at: &At<'_>| at.list().is_some_and(|items| items.is_empty());
        if f.get(self.0.key, |at| is_empty(at).then(|| at.wrong(&expected))).is_none() {
            f.missing(self.0.key, &expected);
        }
        items
    }

    fn write<'a>(&self, value: &'a Vec<T>, to: &mut Entries<'a>) {
        to.put(self.0.key, Tree::List(value.iter().map(Item::tree).collect()));
    }
}

/// What no file holds.
pub(super) struct Fixed<T>(pub(super) T);

impl<T: Clone> Key<T> for Fixed<T> {
    fn read(&self, _: &Fields<'_>) -> T {
        self.0.clone()
    }

    fn write<'a>(&self, _: &'a T, _: &mut Entries<'a>) {}
}

/// Every key that no line above names, in the order of the file. The last line.
pub(super) struct Rest;

impl Key<Extra> for Rest {
    fn read(&self, f: &Fields<'_>) -> Extra {
        f.extra()
    }

    fn write<'a>(&self, value: &'a Extra, to: &mut Entries<'a>) {
        to.extra(value);
    }
}

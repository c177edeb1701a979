//! What was worked out of a table once, and is asked for again and again: each thread keeps its own, so that none waits for another,
//! nor for memory that another has just written.

use std::cell::RefCell;
use std::collections::HashMap;
use std::convert::Infallible;
use std::hash::{BuildHasherDefault, Hash, Hasher};

/// What a thread has worked out, by what it was asked for.
pub(in crate::handbook) struct Kept<K, V>(RefCell<HashMap<K, V, BuildHasherDefault<Quick>>>);

impl<K, V> Default for Kept<K, V> {
    fn default() -> Self {
        Self(RefCell::default())
    }
}

impl<K: Copy + Eq + Hash, V> Kept<K, V> {
    /// Shows what is kept under a key; what nobody has asked for is made, and kept where it can be made.
    pub(in crate::handbook) fn see<R, E>(
        &self,
        key: K,
        make: impl FnOnce() -> Result<V, E>,
        see: impl FnOnce(&V) -> R,
    ) -> Result<R, E> {
        if let Some(kept) = self.0.borrow().get(&key) {
            return Ok(see(kept));
        }
        // What is made may itself be made of what is kept here.
        let made = make()?;
        let seen = see(&made);
        self.0.borrow_mut().insert(key, made);
        Ok(seen)
    }

    /// The same, whatever is made.
    pub(in crate::handbook) fn once(&self, key: K, make: impl FnOnce() -> V) -> V
    where
        V: Clone,
    {
        let Ok(kept) = self.see(key, || Ok::<V, Infallible>(make()), V::clone);
        kept
    }
}

/// A name in the program or in a table, known by where it stands: the same name at two places is kept twice.
#[derive(Clone, Copy, Debug)]
pub(in crate::handbook) struct Name(pub &'static str);

impl PartialEq for Name {
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self.0, other.0)
    }
}

impl Eq for Name {}

impl Hash for Name {
    fn hash<H: Hasher>(&self, state: &mut H) {
        state.write_usize(self.0.as_ptr().addr());
    }
}

/// Spreads places, small numbers and names; nobody from outside chooses so many that it matters.
#[derive(Clone, Debug, Default)]
pub struct Quick(u64);

impl Hasher for Quick {
    fn write(&mut self, bytes: &[u8]) {
        for bytes in bytes.chunks(8) {
            let mut eight = [0; 8];
            eight.iter_mut().zip(bytes).for_each(|(to, from)| *to = *from);
            self.write_u64(u64::from_le_bytes(eight));
        }
    }

    fn write_u8(&mut self, byte: u8) {
        self.write_u64(u64::from(byte));
    }

    fn write_u64(&mut self, number: u64) {
        self.0 = (self.0.rotate_left(5) ^ number).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    }

    fn write_usize(&mut self, number: usize) {
        self.write_u64(number as u64);
    }

    fn write_isize(&mut self, number: isize) {
        self.write_u64(number.cast_unsigned() as u64);
    }

    fn finish(&self) -> u64 {
        self.0.rotate_left(26)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    #[test]
    fn what_is_asked_for_again_is_made_once_and_what_cannot_be_made_is_tried_again() {
        let (kept, made) = (Kept::<Name, usize>::default(), Cell::new(0));
        let see = |name: &'static str| {
            let make = || {
                made.set(made.get() + 1);
                if name.is_empty() { Err(()) } else { Ok(name.len()) }
            };
            kept.see(Name(name), make, |length| *length)
        };
        let (one, inside) = ("a name", "a name of more words");
        assert_eq!((see(one), see(one), made.get()), (Ok(6), Ok(6), 1));
        assert_eq!((see(inside), see(&inside[..6]), see(inside)), (Ok(20), Ok(6), Ok(20)));
        let so_far = made.get();
        assert_eq!((see(""), see(""), made.get()), (Err(()), Err(()), so_far + 2));
    }
}

//! Jobs, their notes and their photos on disk, and the people whose phones have joined.
//!
//! A [`Store`] is a data folder with one database in it. A change is one transaction, and it is on
//! the disk before it is acknowledged: a killed server loses nothing that it said it had. Notes
//! are only ever added; the same note sent again changes nothing. Photos are kept in an object
//! store, by default in a folder beside the database. Documents, notes and photos go in from a
//! folder and out to a folder without loss. Spoken walks are kept beside them, as they were given,
//! with what was answered to them.
//!
//! What is deliberately absent: nothing here reads a document or folds notes.

mod error;
mod folder;
mod key;
mod notes;
mod people;
mod photo_folder;
mod photos;
mod schema;
mod store;
mod walk_files;
mod walks;

pub use error::{Conflict, StoreError};
pub use folder::{Differing, Exported, Imported};
pub use key::{LONGEST_DOCUMENT, LONGEST_KEY};
pub use notes::{Added, Received};
pub use people::Person;
pub use photos::{Facing, Photo, Size, Taken};
pub use store::{JobLine, Store, StoredJob};
pub use walk_files::{add_notes_to_folder, add_to_folder, read_walks};
pub use walks::{Answer, KeptWalk, LONGEST_TRANSCRIPT, WalkAnswer, WalkHead, WalkLine};

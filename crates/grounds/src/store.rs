//! Jobs that are kept in the data directory.

use std::{future::Future, path::PathBuf};

use grounds_site::Note;
use grounds_store::{Differing, Exported, Imported, KeptWalk, Store, StoreError, StoredJob};
use grounds_web::Config;

use crate::{
    arguments::{Data, Export, Import},
    ending::Trouble,
};

/// A job of the data directory, as it is kept.
pub(crate) fn job(key: &str, data: &Data) -> Result<StoredJob, Trouble> {
    let folder = existing(key, data)?;
    wait(async {
        let store = Store::open(&folder).await?;
        let job = store.job(key).await;
        store.close().await;
        job
    })
}

/// Keeps a walk of a job of the data directory, with its answers and the notes that come of them.
/// Gives how many notes were new.
pub(crate) fn answer_walk(
    key: &str,
    data: &Data,
    walk: &KeptWalk,
    notes: &[Note],
) -> Result<u64, Trouble> {
    let folder = existing(key, data)?;
    wait(async {
        let store = Store::open(&folder).await?;
        let added = async {
            store.keep_walk(key, &walk.head, &walk.transcript).await?;
            store
                .answer_walk(key, walk.head.id, &walk.answers, notes)
                .await
        };
        let added = added.await;
        store.close().await;
        added
    })
    .map(|added| added.new)
}

/// The walks of a job of the data directory.
pub(crate) fn walks_of(key: &str, data: &Data) -> Result<Vec<KeptWalk>, Trouble> {
    let folder = existing(key, data)?;
    wait(async {
        let store = Store::open(&folder).await?;
        let walks = store.all_walks(key).await;
        store.close().await;
        walks
    })
}

/// Adds notes to a job of the data directory. Gives how many were new.
pub(crate) fn add_notes(key: &str, data: &Data, notes: &[Note]) -> Result<u64, Trouble> {
    let folder = existing(key, data)?;
    wait(async {
        let store = Store::open(&folder).await?;
        let added = store.add_notes(key, notes).await;
        store.close().await;
        added
    })
    .map(|added| added.new)
}

/// Takes a folder into the data directory.
pub(crate) fn import(asked: &Import, differing: Differing) -> Result<Imported, Trouble> {
    // A name such as `.` is no key until it is made whole.
    let whole = asked
        .folder
        .canonicalize()
        .map_err(|error| Trouble::file("read", &asked.folder, &error))?;
    let name = whole
        .file_name()
        .and_then(|name| name.to_str())
        .unwrap_or_default();
    let key = asked.key.as_deref().unwrap_or(name);
    wait(async {
        let store = Store::open(&folder(&asked.data)).await?;
        let imported = store.import_folder_as(key, &whole, differing).await;
        store.close().await;
        imported
    })
}

/// Gives a job of the data directory out to a folder.
pub(crate) fn export(asked: &Export, differing: Differing) -> Result<Exported, Trouble> {
    let folder = existing(&asked.job, &asked.data)?;
    wait(async {
        let store = Store::open(&folder).await?;
        let exported = store
            .export_folder(&asked.job, &asked.folder, differing)
            .await;
        store.close().await;
        exported
    })
}

/// The data directory: the one that is named, or the one that the server uses.
fn folder(data: &Data) -> PathBuf {
    Config {
        data: data.data.clone(),
        ..Config::default()
    }
    .folder()
}

/// The data directory, where there is one: to look for a job must not make it.
fn existing(key: &str, data: &Data) -> Result<PathBuf, Trouble> {
    let folder = folder(data);
    if folder.is_dir() {
        return Ok(folder);
    }
    Err(Trouble::Input(format!(
        "there is no folder {key}, and no data directory {} to look for it in: name a folder with a \
         job.toml in it, or make one with `grounds new DIR`",
        folder.display()
    )))
}

fn wait<T>(work: impl Future<Output = Result<T, StoreError>>) -> Result<T, Trouble> {
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_time()
        .build()
        .map_err(|error| Trouble::Failure(format!("cannot begin to work: {error}")))?;
    runtime
        .block_on(work)
        .map_err(|error| store_trouble(&error))
}

/// What went wrong with the data directory, by whose fault.
pub(crate) fn store_trouble(error: &StoreError) -> Trouble {
    let sentence = error.to_string();
    match error {
        StoreError::BadKey { .. }
        | StoreError::NoJob { .. }
        | StoreError::BadDocument { .. }
        | StoreError::UnfitNote { .. }
        | StoreError::Conflicts(_)
        | StoreError::BadLog(_)
        | StoreError::NoWalk { .. }
        | StoreError::UnfitWalk { .. }
        | StoreError::WalkDiffers { .. }
        | StoreError::BadWalks { .. }
        | StoreError::Path { .. }
        | StoreError::DocumentDiffers { .. }
        | StoreError::FolderDiffers { .. } => Trouble::Input(sentence),
        _ => Trouble::Failure(sentence),
    }
}

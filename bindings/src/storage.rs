//! Making the place ready where a book lives: a folder natively, the origin's private file system in a
//! browser. The only file that knows the two apart; everything above opens a book in either the same way.

use crate::FarsidingError;

/// Makes `folder` ready for books. Wait for it before `Book::open`; calling it again changes nothing.
///
/// Natively `folder` is a path, and the folder is made with those above it. In a browser `folder` is a folder
/// of the origin's private file system; the call must be made in a dedicated worker and takes hold of that
/// folder, which one worker at a time can do.
///
/// # Errors
/// - `NoStorage`: the folder cannot be made, or the browser keeps nothing durable (a private window).
/// - `OpenElsewhere`: another tab holds the folder (browsers only).
/// - `NotStored`: the browser gives no more room (browsers only).
#[uniffi::export]
pub async fn prepare_storage(folder: String) -> Result<(), FarsidingError> {
    platform::prepare(&folder).await
}

/// The version of the core as `major.minor.patch`, for an about page and for support. Never fails.
#[uniffi::export]
pub fn core_version() -> String {
    env!("CARGO_PKG_VERSION").to_owned()
}

/// Where SQLite finds the book `name` of `folder`.
pub(crate) fn location(folder: &str, name: &str) -> Result<String, FarsidingError> {
    if name.is_empty() || name.len() > 200 || name.contains(['/', '\\', '\0']) {
        return Err(FarsidingError::wrong_call("a book's name is 1 to 200 bytes, without slashes"));
    }
    Ok(platform::location(folder, name))
}

pub(crate) use platform::DURABILITY;

#[cfg(not(target_arch = "wasm32"))]
mod platform {
    use farsiding_core::store::{Durability, StoreError};

    use super::FarsidingError;

    /// Readers beside the writer, one sync per commit.
    pub(crate) const DURABILITY: Durability = Durability::WriteAheadLog;

    // Async because the browser's twin is.
    #[allow(clippy::unused_async)]
    pub(super) async fn prepare(folder: &str) -> Result<(), FarsidingError> {
        std::fs::create_dir_all(folder).map_err(|error| {
            FarsidingError::of_storage(error.to_string(), &StoreError::NoPlace(String::new()))
        })
    }

    pub(super) fn location(folder: &str, name: &str) -> String {
        std::path::Path::new(folder).join(name).to_string_lossy().into_owned()
    }
}

#[cfg(target_arch = "wasm32")]
mod platform {
    use farsiding_core::store::{Durability, StoreError};
    use sqlite_wasm_vfs::sahpool::{OpfsSAHError, OpfsSAHPoolCfgBuilder, install};

    use super::FarsidingError;

    /// The pool has no shared memory, so no WAL; truncating keeps the journal's slot.
    pub(crate) const DURABILITY: Durability = Durability::RollbackJournal;

    pub(super) async fn prepare(folder: &str) -> Result<(), FarsidingError> {
        let pool = OpfsSAHPoolCfgBuilder::new().directory(folder).initial_capacity(8).build();
        match install::<sqlite_wasm_rs::WasmOsCallback>(&pool, true).await {
            Ok(_) => Ok(()),
            Err(error) => {
                let why = error.to_string();
                let storage = match &error {
                    OpfsSAHError::Opfs { .. } if why.contains("NoModificationAllowedError") => {
                        StoreError::Busy
                    }
                    OpfsSAHError::Opfs { .. } if why.contains("QuotaExceededError") => StoreError::Full,
                    _ => StoreError::NoPlace(String::new()),
                };
                Err(FarsidingError::of_storage(why, &storage))
            }
        }
    }

    /// The pool's names have no folders; the pool itself sits in `folder`.
    pub(super) fn location(_folder: &str, name: &str) -> String {
        name.to_owned()
    }
}

//! The places that the files of a log are read from: a folder, or a web address.

use std::fs::File;
use std::io::{ErrorKind, Read as _};
use std::path::PathBuf;

use farsiding_core::evidence::tile_audit::Shelf;
use farsiding_core::evidence::tiles::LARGEST_FILE;

use farsiding_host::outside_call::Outsider;

/// The files in a folder.
#[derive(Debug)]
pub struct FolderShelf(pub PathBuf);

impl Shelf for FolderShelf {
    fn read(&mut self, path: &str) -> Result<Option<Vec<u8>>, String> {
        let file = match File::open(self.0.join(path)) {
            Ok(file) => file,
            Err(e) if matches!(e.kind(), ErrorKind::NotFound | ErrorKind::NotADirectory) => return Ok(None),
            Err(e) => return Err(e.to_string()),
        };
        let mut bytes = Vec::new();
        file.take(LARGEST_FILE as u64 + 1).read_to_end(&mut bytes).map_err(|e| e.to_string())?;
        if bytes.len() > LARGEST_FILE {
            return Err("it is larger than any file of a log".to_owned());
        }
        Ok(Some(bytes))
    }
}

/// The files below a web address.
#[derive(Debug)]
pub struct WebShelf {
    outsider: Outsider,
    runtime: tokio::runtime::Runtime,
}

impl WebShelf {
    /// Returns the files of the log whose checkpoint is at `<base>/checkpoint`.
    ///
    /// # Errors
    /// Returns a message when `base` is not an address.
    pub fn new(base: &str) -> Result<WebShelf, String> {
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
        let runtime = runtime.map_err(|e| e.to_string())?;
        Ok(WebShelf { outsider: Outsider::at(base)?, runtime })
    }
}

impl Shelf for WebShelf {
    fn read(&mut self, path: &str) -> Result<Option<Vec<u8>>, String> {
        let answer = self.runtime.block_on(self.outsider.get(path, LARGEST_FILE))?;
        match answer.status {
            200 if matches!(answer.encoding.as_str(), "" | "identity") => Ok(Some(answer.body)),
            200 => Err(format!("it came packed as {}, which was not asked for", answer.encoding)),
            404 | 410 => Ok(None),
            other => Err(format!("the server answered {other}")),
        }
    }
}

//! Gives a packet access to the office's photographs.

use farsiding_core::ids::Digest;
use farsiding_packet::{PacketError, Photographs};
use futures_util::TryStreamExt as _;

use crate::photo_store::{PhotoError, PhotoStore};

/// The office's photographs, read from a thread that may block.
pub struct StoredPhotographs<'a> {
    /// The store of the photographs.
    pub store: &'a PhotoStore,
    /// The runtime on which the store reads.
    pub runtime: &'a tokio::runtime::Handle,
}

impl Photographs for StoredPhotographs<'_> {
    fn bytes(&self, sha256: Digest) -> Result<Option<Vec<u8>>, PacketError> {
        let read = async {
            let (length, mut pieces) = self.store.read(sha256).await?;
            let mut bytes = Vec::with_capacity(usize::try_from(length).unwrap_or(0));
            while let Some(piece) = pieces.try_next().await? {
                bytes.extend_from_slice(&piece);
            }
            Ok::<_, PhotoError>(bytes)
        };
        match self.runtime.block_on(read) {
            Ok(bytes) => Ok(Some(bytes)),
            Err(PhotoError::NotHere) => Ok(None),
            Err(why) => Err(PacketError::Photo { sha256, why: why.to_string() }),
        }
    }
}

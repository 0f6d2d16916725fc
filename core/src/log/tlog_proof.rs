//! A proof that an entry stands in a log, as a text that other programs can read (C2SP tlog-proof@v1): the
//! leaf's number, the path from there, and the checkpoint that the path leads to, with the signatures of log
//! and witnesses.
//!
//! This module does no IO. The leaf's data is included as the format's extra data, because its hash cannot be
//! computed without it; extra data must not be trusted before the path was checked. An evidence packet
//! contains such a proof for the last entry of a stay.

use std::fmt;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use super::checkpoint::Checkpoint;
use super::signed_note::{LARGEST_NOTE, SignedNote};
use crate::ids::Digest;
use crate::tree::merkle;

const FIRST_LINE: &str = "c2sp.org/tlog-proof@v1";
/// The longest path accepted, which is that of a tree with 2^64 leaves.
const LONGEST_PATH: usize = 64;
/// The most extra data accepted, in bytes.
const LARGEST_EXTRA: usize = 4096;

/// The reason why a proof cannot be read or does not hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum TlogProofError {
    /// The text does not have the form of a proof.
    #[error("this is no proof of C2SP tlog-proof@v1: {0}")]
    Form(&'static str),
    /// The path does not lead to the checkpoint's root: the leaf, its number or the log is a different one.
    #[error(
        "the path does not lead from this leaf to the checkpoint: another entry, another place, or another log"
    )]
    OtherRoot,
}

/// A parsed proof.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TlogProof {
    /// The extra data, here the leaf's data. It must not be trusted before [`TlogProof::check`] succeeded.
    pub extra: Option<Vec<u8>>,
    /// The leaf's number, counted from 0.
    pub index: u64,
    /// The sibling hashes on the way from the leaf to the root.
    pub path: Vec<Digest>,
    /// The checkpoint's signed note.
    pub note: String,
}

/// Returns the text of a proof that the leaf with this data has the number `index`. `path` leads from the
/// leaf to the root of the checkpoint in `note`.
pub fn tlog_proof(leaf: &[u8], index: u64, path: &[Digest], note: &str) -> String {
    TlogProof { extra: Some(leaf.to_vec()), index, path: path.to_vec(), note: note.to_owned() }.to_string()
}

impl fmt::Display for TlogProof {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "{FIRST_LINE}")?;
        if let Some(extra) = &self.extra {
            writeln!(f, "extra {}", STANDARD.encode(extra))?;
        }
        writeln!(f, "index {}", self.index)?;
        for hash in &self.path {
            writeln!(f, "{}", STANDARD.encode(hash.0))?;
        }
        write!(f, "\n{}", self.note)
    }
}

impl TlogProof {
    /// Parses a proof. Only its form is checked, including that it ends with a signed note.
    ///
    /// # Errors
    /// [`TlogProofError::Form`]. The method does not panic on any text.
    pub fn read(text: &str) -> Result<TlogProof, TlogProofError> {
        let form = |why: &'static str| TlogProofError::Form(why);
        if text.len() > LARGEST_NOTE + 2 * LARGEST_EXTRA {
            return Err(form("it is too long"));
        }
        let (head, note) = text.split_once("\n\n").ok_or(form("there is no checkpoint in it"))?;
        let mut lines = head.split('\n').peekable();
        if lines.next() != Some(FIRST_LINE) {
            return Err(form("its first line is another one"));
        }
        let extra = lines.next_if(|line| line.starts_with("extra")).map(|line| {
            let encoded = line.strip_prefix("extra ").ok_or(form("its extra data is not set apart"))?;
            let extra = STANDARD.decode(encoded).map_err(|_| form("its extra data is no base64"))?;
            if extra.len() <= LARGEST_EXTRA { Ok(extra) } else { Err(form("its extra data is too long")) }
        });
        let index = lines.next().and_then(|line| line.strip_prefix("index "));
        let index = index
            .and_then(|text| text.parse::<u64>().ok().filter(|number| number.to_string() == text))
            .ok_or(form("it gives no index"))?;
        let path = lines
            .map(|line| {
                let hash = STANDARD.decode(line).ok().and_then(|bytes| bytes.try_into().ok());
                hash.map(Digest).ok_or(form("a line of its path is no hash"))
            })
            .collect::<Result<Vec<Digest>, TlogProofError>>()?;
        if path.len() > LONGEST_PATH {
            return Err(form("its path is too long"));
        }
        SignedNote::read(note).map_err(|_| form("its checkpoint is no signed note"))?;
        Ok(TlogProof { extra: extra.transpose()?, index, path, note: note.to_owned() })
    }

    /// Checks that the leaf with this data has the proof's number in the log of `checkpoint`, which must be
    /// the proof's own, opened with the log's key.
    ///
    /// # Errors
    /// [`TlogProofError::OtherRoot`] if the path does not lead to the checkpoint's root.
    pub fn check(&self, leaf: &[u8], checkpoint: &Checkpoint) -> Result<(), TlogProofError> {
        let root = merkle::root_by_path(merkle::leaf_hash(leaf), self.index, checkpoint.size, &self.path);
        if root == Some(checkpoint.root) { Ok(()) } else { Err(TlogProofError::OtherRoot) }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::entry::OrganisationKey;

    /// The form as printed in C2SP tlog-proof, with the note from the example in tlog-cosignature, because
    /// the note in tlog-proof is abbreviated.
    const STANDARDS: &str = "c2sp.org/tlog-proof@v1\n\
        extra YWdlLXYxLjIuMS1kYXJ3aW4tYXJtNjQudGFyLmd6kYXJ3aW4tYXJ\n\
        index 73894\n\
        gSKyXoYZUgZ6jduWYrkDOARinOMGJveXjgMkBTcdPlQ=\n\
        B95lDa8R83lS8n0eG+o0buTxRKQTYFi//1U8anccXmA=\n\
        EKNzoDWG8LGC0Yp9o+sv3qllpMP9uHQ9B20KNL+Q1zs=\n\
        RoopEkOdqkYqMB4MJXrbt/hMjOxsVn0IrWjpz1ZMMes=\n\
        AHCioX9nLjsrse6YhjRRmk1WUEirVOLLRoOQ6vfO5vk=\n\
        \n\
        example.com/behind-the-sofa\n\
        20852163\n\
        CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n\
        \n\
        \u{2014} example.com/behind-the-sofa Az3grlgtzPICa5OS8npVmf1Myq/5IZniMp+ZJurmRDeOoRDe4URYN7u5/Zhcyv2q1gGzGku9nTo+zyWE+xeMcTOAYQ8=\n\
        \u{2014} witness.example.com/w1 jWbPPwAAAABkGFDLEZMHwSRaJNiIDoe9DYn/zXcrtPHeolMI5OWXEhZCB9dlrDJsX3b2oyin1nPZqhf5nNo0xUe+mbIUBkBIfZ+qnA==\n";

    #[test]
    fn the_standards_own_form_is_read_and_written_byte_for_byte() {
        let proof = TlogProof::read(STANDARDS).unwrap();
        assert_eq!((proof.index, proof.path.len()), (73_894, 5));
        assert!(proof.extra.as_ref().unwrap().starts_with(b"age-v1.2.1-darwin-arm64.tar.gz"));
        assert!(proof.note.starts_with("example.com/behind-the-sofa\n20852163\n"));
        assert_eq!(proof.to_string(), STANDARDS);
        let without = TlogProof { extra: None, path: Vec::new(), index: 0, ..proof };
        assert!(without.to_string().starts_with("c2sp.org/tlog-proof@v1\nindex 0\n\nexample.com/"));
        assert_eq!(TlogProof::read(&without.to_string()).unwrap(), without);
    }

    #[test]
    fn what_is_of_another_form_is_refused_whatever_it_is() {
        let good = STANDARDS;
        for (this, that) in [
            ("proof@v1", "proof@v2"),
            ("index 73894", "index 073894"),
            ("index 73894", "index -1"),
            ("index 73894", "index"),
            ("index 73894\n", ""),
            ("extra ", "extra"),
            ("extra ", "more "),
            ("gSKyXoYZ", "gSKyXoY"),
            ("\n\nexample", "\nexample"),
            ("\u{2014} ", "- "),
        ] {
            let bad = good.replacen(this, that, 1);
            assert!(matches!(TlogProof::read(&bad), Err(TlogProofError::Form(_))), "{this:?} to {that:?}");
        }
        for cut in 0..good.find("\u{2014} witness").unwrap() {
            if let Some(part) = good.get(..cut) {
                let (ended, read) = (part.ends_with("8=\n"), TlogProof::read(part).is_ok());
                assert_eq!(read, ended, "cut at {cut}: whole lines of signatures may be left out");
            }
        }
        let line = "gSKyXoYZUgZ6jduWYrkDOARinOMGJveXjgMkBTcdPlQ=\n";
        let path_of = |lines: usize| good.replacen(line, &line.repeat(lines), 1);
        assert!(TlogProof::read(&path_of(60)).is_ok());
        assert!(TlogProof::read(&path_of(61)).is_err());
    }

    #[test]
    fn a_proof_holds_for_its_leaf_and_place_and_for_nothing_else() {
        let key = OrganisationKey::from_secret([7; 32]);
        let data: Vec<Vec<u8>> = (0..11u8).map(|n| vec![n; if n < 6 { 40 } else { 57 }]).collect();
        let hashes: Vec<Digest> = data.iter().map(|leaf| merkle::leaf_hash(leaf)).collect();
        let (origin, root) = (Checkpoint::first_origin(&key.public()), merkle::root(&hashes));
        let checkpoint = Checkpoint { origin, size: 11, root, heads: None };
        let note = checkpoint.sign(&key);
        for (at, leaf) in data.iter().enumerate() {
            let text = tlog_proof(leaf, at as u64, &merkle::path(&hashes, at).unwrap(), &note);
            let proof = TlogProof::read(&text).unwrap();
            let opened = Checkpoint::open(&proof.note, &key.public()).unwrap();
            assert_eq!(proof.extra.as_ref(), Some(leaf));
            assert_eq!(proof.check(leaf, &opened), Ok(()));
            let wrong = Err(TlogProofError::OtherRoot);
            assert_eq!(proof.check(b"another", &opened), wrong);
            let moved = TlogProof { index: (at as u64 + 1) % 12, ..proof.clone() };
            assert_eq!(moved.check(leaf, &opened), wrong);
            let mut short = proof.clone();
            short.path.pop();
            assert_eq!(short.check(leaf, &opened), wrong);
        }
    }
}

//! Time stamps by an authority that the test runs: OpenSSL's `ts` behind a few bytes of HTTP.

use std::path::{Path, PathBuf};
use std::process::Command;

use farsiding_core::store::{Durability, SqliteStore, Store as _, StoredStamp};
use farsiding_timestamp::{StampError, check, read_roots, request, token_of};
use serde_json::Value;

use super::outsider::outsider;
use super::stage::{Server, farsiding};

pub fn openssl(folder: &Path, line: &str) {
    let output = Command::new("openssl").args(line.split(' ')).current_dir(folder).output().unwrap();
    assert!(output.status.success(), "openssl {line}: {}", String::from_utf8_lossy(&output.stderr));
}

/// The kind of an authority's key, and its path to the root.
#[derive(Clone, Copy, PartialEq)]
pub enum Kind {
    /// RSA, certified by an intermediate authority.
    RsaOverIntermediate,
    /// P-256, certified by the root itself.
    P256,
    /// P-384, certified by the root itself.
    P384,
}

/// A root, a time stamp authority under it, and a certificate for another purpose.
pub struct Authority {
    pub folder: PathBuf,
}

impl Authority {
    pub fn new(folder: &Path, name: &str, kind: Kind) -> Authority {
        let folder = folder.join(name);
        std::fs::create_dir(&folder).unwrap();
        std::fs::write(
            folder.join("ext"),
            "[ca]\nbasicConstraints=critical,CA:TRUE\nkeyUsage=critical,keyCertSign\n\
             [tsa]\nbasicConstraints=critical,CA:FALSE\nextendedKeyUsage=critical,timeStamping\n\
             [mail]\nbasicConstraints=critical,CA:FALSE\nextendedKeyUsage=emailProtection\n\
             [none]\nbasicConstraints=critical,CA:FALSE\n\
             [uncritical]\nbasicConstraints=critical,CA:FALSE\nextendedKeyUsage=timeStamping\n\
             [both]\nbasicConstraints=critical,CA:FALSE\nextendedKeyUsage=critical,timeStamping,emailProtection\n\
             [odd]\nbasicConstraints=critical,CA:FALSE\nextendedKeyUsage=critical,timeStamping\n\
             1.2.3.4.5=critical,ASN1:NULL\n\
             [no_ca]\nbasicConstraints=critical,CA:FALSE\n\
             [short]\nbasicConstraints=critical,CA:TRUE,pathlen:0\nkeyUsage=critical,keyCertSign\n\
             [no_sign]\nbasicConstraints=critical,CA:TRUE\nkeyUsage=critical,cRLSign\n",
        )
        .unwrap();
        Authority::new_key(&folder, kind, "root");
        openssl(
            &folder,
            &format!(
                "req -x509 -new -key root.key -subj /CN=Invented-root-{name} -days 3650 -sha256 -out root.pem"
            ),
        );
        let certify =
            |name: &str, by: &str, what: &str| Authority::certify(&folder, kind, (name, by, what), "");
        let by = if kind == Kind::RsaOverIntermediate {
            certify("between", "root", "ca");
            "between"
        } else {
            "root"
        };
        certify("tsa", by, "tsa");
        certify("mail", by, "mail");
        std::fs::write(folder.join("serial"), "01\n").unwrap();
        let authority = Authority { folder };
        authority.sign_with("tsa", by, "sha256");
        authority
    }

    fn new_key(folder: &Path, kind: Kind, name: &str) {
        match kind {
            Kind::RsaOverIntermediate => openssl(folder, &format!("genrsa -out {name}.key 2048")),
            Kind::P256 => {
                openssl(folder, &format!("ecparam -name prime256v1 -genkey -noout -out {name}.key"));
            }
            Kind::P384 => {
                openssl(folder, &format!("ecparam -name secp384r1 -genkey -noout -out {name}.key"));
            }
        }
    }

    /// Creates a key and its certificate, issued by another key, for the purpose named in the file of
    /// extensions.
    fn certify(folder: &Path, kind: Kind, (name, by, what): (&str, &str, &str), validity: &str) {
        Authority::new_key(folder, kind, name);
        openssl(folder, &format!("req -new -key {name}.key -subj /CN=Invented-{name} -out {name}.csr"));
        let validity = if validity.is_empty() { "-days 3650" } else { validity };
        openssl(
            folder,
            &format!(
                "x509 -req -in {name}.csr -CA {by}.pem -CAkey {by}.key -CAcreateserial {validity} -sha256 \
                 -extfile ext -extensions {what} -out {name}.pem"
            ),
        );
    }

    /// Has tokens signed by `signer` from now on, with the certificate `by` included and named by a digest of
    /// the kind `named`.
    fn sign_with(&self, signer: &str, by: &str, named: &str) {
        std::fs::write(
            self.folder.join("ts.conf"),
            format!(
                "[tsa]\ndefault_tsa=one\n[one]\nserial={0}/serial\nsigner_cert={0}/{signer}.pem\n\
                 signer_key={0}/{signer}.key\ncerts={0}/{by}.pem\nsigner_digest=sha256\ndefault_policy=1.2.3.4.1\n\
                 digests=sha256\naccuracy=secs:2, millisecs:500\ness_cert_id_alg={named}\n",
                self.folder.display()
            ),
        )
        .unwrap();
    }

    pub fn answer(&self, query: &[u8]) -> Vec<u8> {
        std::fs::write(self.folder.join("query"), query).unwrap();
        openssl(&self.folder, "ts -reply -config ts.conf -queryfile query -out answer");
        std::fs::read(self.folder.join("answer")).unwrap()
    }

    pub fn root(&self) -> String {
        self.folder.join("root.pem").to_str().unwrap().to_owned()
    }

    fn token(&self, stamped: &[u8]) -> Vec<u8> {
        token_of(&self.answer(&request(stamped, [5; 8]).unwrap()), [5; 8]).unwrap()
    }

    /// Serves one request after another with `answer`, and returns the address.
    pub fn serve(answer: impl Fn(Vec<u8>) -> (u16, Vec<u8>) + Send + 'static) -> String {
        let url = outsider(move |asked| {
            assert!(asked.head.contains("application/timestamp-query"), "{}", asked.head);
            let (status, body) = answer(asked.body);
            (status, "application/timestamp-reply", body)
        });
        format!("{url}/")
    }
}

fn ask(server: &Server, tsa: &str, more: &[&str]) -> (i32, Value) {
    let data = server.data.to_str().unwrap();
    let output =
        farsiding(&["timestamp", "--data", data, "--tsa", tsa, "--json"]).args(more).output().unwrap();
    let said = serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{output:?}"));
    (output.status.code().unwrap(), said)
}

pub fn kept(server: &Server) -> Option<StoredStamp> {
    let file = server.data.join("ledger.db");
    let store = SqliteStore::open(file.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    store.log().newest_checkpoint().unwrap().unwrap().stamp
}

#[test]
fn a_checkpoint_is_stamped_by_an_authority_and_the_token_is_kept() {
    for kind in [Kind::RsaOverIntermediate, Kind::P256, Kind::P384] {
        let folder = tempfile::tempdir().unwrap();
        let server = Server::start(&folder.path().join("office"));
        let authority = Authority::new(folder.path(), "tsa", kind);
        let (root, own) = (authority.root(), authority.folder.clone());
        let url = Authority::serve(move |query| (200, authority.answer(&query)));
        let (code, said) = ask(&server, &url, &["--root", &root]);
        assert_eq!((code, said["path_checked"].as_bool()), (0, Some(true)), "{said}");
        assert_eq!(said["policy"], "1.2.3.4.1");
        let stamp = kept(&server).unwrap();
        let roots = read_roots(&std::fs::read(&root).unwrap()).unwrap();
        let checked = check(&stamp.token, stamp.note.as_bytes(), &roots).unwrap();
        assert!((checked.at.0 - stamp.at.0).abs() < 120_000, "{checked:?} {}", stamp.at.0);
        assert!(checked.authority.contains("Invented-tsa"), "{checked:?}");
        // The stored token is accepted by other tools.
        std::fs::write(own.join("note"), &stamp.note).unwrap();
        std::fs::write(own.join("token"), &stamp.token).unwrap();
        let between = if kind == Kind::RsaOverIntermediate { " -untrusted between.pem" } else { "" };
        openssl(&own, &format!("ts -verify -data note -in token -token_in -CAfile root.pem{between}"));
        // Without a root only the signature is checked, and the answer says what was not checked.
        let (code, said) = ask(&server, &url, &[]);
        assert_eq!((code, said["path_checked"].as_bool()), (0, Some(false)), "{said}");
    }
}

#[test]
fn every_way_a_token_can_be_wrong_has_its_own_name() {
    let folder = tempfile::tempdir().unwrap();
    let authority = Authority::new(folder.path(), "tsa", Kind::RsaOverIntermediate);
    let other = Authority::new(folder.path(), "other", Kind::P256);
    let roots = |authority: &Authority| read_roots(&std::fs::read(authority.root()).unwrap()).unwrap();
    let token = authority.token(b"a note");
    assert!(check(&token, b"a note", &roots(&authority)).is_ok());

    assert_eq!(check(&token, b"another note", &roots(&authority)), Err(StampError::OtherImprint));
    let refused = check(&token, b"a note", &roots(&other));
    assert!(matches!(refused, Err(StampError::OtherRoot(_))), "{refused:?}");

    // The signed content contains the digest of the note, which is replaced here.
    let imprint = sha256(b"a note");
    let at = token.windows(32).position(|window| window == imprint).unwrap();
    let mut altered = token.clone();
    altered[at..at + 32].copy_from_slice(&sha256(b"another note"));
    assert_eq!(check(&altered, b"another note", &roots(&authority)), Err(StampError::Altered));
    let mut altered = token.clone();
    *altered.last_mut().unwrap() ^= 1;
    assert_eq!(check(&altered, b"a note", &roots(&authority)), Err(StampError::BadSignature));
    for at in 0..token.len() {
        let mut altered = token.clone();
        altered[at] ^= 0x10;
        // Only unsigned parts may change: an unused parameter, or the order of certificates.
        if let Ok(stamp) = check(&altered, b"a note", &roots(&authority)) {
            assert_eq!(stamp, check(&token, b"a note", &roots(&authority)).unwrap(), "byte {at}");
        }
        assert!(check(&token[..at], b"a note", &[]).is_err(), "cut at {at}");
    }

    // The certificate is named by SHA-1, as by older authorities.
    authority.sign_with("tsa", "between", "sha1");
    assert!(check(&authority.token(b"a note"), b"a note", &roots(&authority)).is_ok());
    authority.sign_with("tsa", "between", "sha256");
    let stamp = check(&token, b"a note", &roots(&authority)).unwrap();
    assert_eq!(stamp.accuracy_millis, 2500, "as the authority's own file says");

    // The same content is signed by a certificate for another purpose.
    std::fs::write(authority.folder.join("token"), &token).unwrap();
    openssl(&authority.folder, "cms -verify -noverify -inform DER -in token -out content");
    openssl(
        &authority.folder,
        "cms -sign -binary -nodetach -outform DER -md sha256 -econtent_type id-smime-ct-TSTInfo -in content \
         -signer mail.pem -inkey mail.key -certfile between.pem -out forged",
    );
    let forged = std::fs::read(authority.folder.join("forged")).unwrap();
    assert_eq!(check(&forged, b"a note", &roots(&authority)), Err(StampError::NotAnAuthority));
    // The token carries another certificate than the one that signed it.
    openssl(
        &authority.folder,
        "cms -sign -binary -nodetach -nocerts -outform DER -md sha256 -econtent_type id-smime-ct-TSTInfo \
         -in content -signer tsa.pem -inkey tsa.key -out without",
    );
    let without = std::fs::read(authority.folder.join("without")).unwrap();
    assert!(matches!(check(&without, b"a note", &[]), Err(StampError::NoSigner(_))));
    for bytes in [&b""[..], b"<html>", &[0x30, 0x80]] {
        assert!(matches!(check(bytes, b"a note", &[]), Err(StampError::NotAToken(_))));
    }
}

fn sha256(bytes: &[u8]) -> [u8; 32] {
    farsiding_core::ids::Digest::of(bytes).0
}

#[test]
fn an_authority_that_refuses_lies_or_is_not_there_leaves_nothing_behind() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let authority = Authority::new(folder.path(), "tsa", Kind::P256);
    let other = Authority::new(folder.path(), "other", Kind::P256);
    let (root, wrong_root) = (authority.root(), other.root());
    let message = |url: &str, root: &str| {
        let (code, said) = ask(&server, url, &["--root", root]);
        assert_eq!(code, 1, "{said}");
        said["message"].as_str().unwrap().to_owned()
    };
    // The answer belongs to another request, although it is validly signed.
    let old = authority.answer(&request(b"an older note", [1; 8]).unwrap());
    let url = Authority::serve(move |_| (200, old.clone()));
    assert!(message(&url, &root).contains("answered another request"));
    // The number is right, but the stamp is on other bytes.
    let lying = Authority::new(folder.path(), "lying", Kind::P256);
    let lying_root = lying.root();
    let url = Authority::serve(move |query| {
        let mut query = query;
        let at = query.windows(2).position(|w| w == [0x04, 0x20]).unwrap();
        query[at + 2] ^= 1;
        (200, lying.answer(&query))
    });
    assert!(message(&url, &lying_root).contains("given for something else"));
    // The authority does not accept the digest.
    let config = authority.folder.join("ts.conf");
    let strict = std::fs::read_to_string(&config).unwrap().replace("digests=sha256", "digests=sha512");
    let honest = std::fs::read_to_string(&config).unwrap();
    std::fs::write(&config, strict).unwrap();
    let refusal = authority.answer(&request(b"x", [1; 8]).unwrap());
    std::fs::write(&config, honest).unwrap();
    let url = Authority::serve(move |_| (200, refusal.clone()));
    assert!(message(&url, &root).contains("status 2"), "{}", message(&url, &root));
    let url = Authority::serve(|_| (200, b"<html>sign in</html>".to_vec()));
    assert!(message(&url, &root).contains("not an authority's answer"));
    let url = Authority::serve(|_| (503, Vec::new()));
    assert!(message(&url, &root).contains("503"));
    assert!(message("http://127.0.0.1:9/", &root).contains("was not reached"));
    let url = Authority::serve(move |query| (200, authority.answer(&query)));
    assert!(message(&url, &wrong_root).contains("certified by nobody trusted here"));
    assert_eq!(kept(&server), None);
    assert_eq!(ask(&server, &url, &["--root", &root]).0, 0);
    assert!(kept(&server).is_some());
}

#[test]
fn an_authority_must_be_certified_for_time_stamps_alone_and_all_the_way_up() {
    let folder = tempfile::tempdir().unwrap();
    let kind = Kind::P256;
    let authority = Authority::new(folder.path(), "tsa", kind);
    let at = &authority.folder;
    let roots = read_roots(&std::fs::read(authority.root()).unwrap()).unwrap();
    let outcome = |signer: &str, by: &str| {
        authority.sign_with(signer, by, "sha256");
        check(&authority.token(b"a note"), b"a note", &roots)
    };
    assert!(outcome("tsa", "root").is_ok());
    // OpenSSL's own authority refuses to sign with unsuitable certificates, so these tokens are made by hand.
    let content = |name: &str| {
        authority.sign_with("tsa", "root", "sha256");
        std::fs::write(at.join("token"), authority.token(b"a note")).unwrap();
        openssl(at, "cms -verify -noverify -inform DER -in token -out content");
        openssl(
            at,
            &format!(
                "cms -sign -binary -nodetach -outform DER -md sha256 -cades -econtent_type id-smime-ct-TSTInfo \
                 -in content -signer {name}.pem -inkey {name}.key -certfile root.pem -out forged"
            ),
        );
        check(&std::fs::read(at.join("forged")).unwrap(), b"a note", &roots)
    };
    assert!(content("tsa").is_ok(), "signed so, an honest one holds: {:?}", content("tsa"));
    for what in ["none", "uncritical", "both"] {
        Authority::certify(at, kind, (what, "root", what), "");
        assert_eq!(content(what), Err(StampError::NotAnAuthority), "{what}");
    }
    Authority::certify(at, kind, ("odd", "root", "odd"), "");
    assert!(matches!(content("odd"), Err(StampError::Unsupported(_))), "{:?}", content("odd"));
    // If the certificate were not named by digest, another one with the same key could replace it.
    openssl(
        at,
        "cms -sign -binary -nodetach -outform DER -md sha256 -econtent_type id-smime-ct-TSTInfo -in content \
         -signer tsa.pem -inkey tsa.key -out unnamed",
    );
    let unnamed = check(&std::fs::read(at.join("unnamed")).unwrap(), b"a note", &roots);
    assert!(matches!(unnamed, Err(StampError::NoSigner(_))), "{unnamed:?}");
    // The certificate has expired, or is not yet valid, at the stamped time.
    Authority::certify(at, kind, ("past", "root", "tsa"), "-days -1");
    assert!(
        matches!(outcome("past", "root"), Err(StampError::NotValidThen(_))),
        "{:?}",
        outcome("past", "root")
    );
    // The intermediate authority may not certify others, or not another intermediate authority.
    for what in ["no_ca", "no_sign"] {
        Authority::certify(at, kind, (what, "root", what), "");
        let below = format!("under_{what}");
        Authority::certify(at, kind, (&below, what, "tsa"), "");
        let outcome = outcome(&below, what);
        assert!(matches!(outcome, Err(StampError::OtherRoot(_))), "{what}: {outcome:?}");
    }
    Authority::certify(at, kind, ("short", "root", "short"), "");
    Authority::certify(at, kind, ("under_short", "short", "tsa"), "");
    assert!(outcome("under_short", "short").is_ok());
    Authority::certify(at, kind, ("second", "short", "ca"), "");
    Authority::certify(at, kind, ("too_deep", "second", "tsa"), "");
    std::fs::write(
        at.join("chain.pem"),
        ["second.pem", "short.pem"].map(|name| std::fs::read_to_string(at.join(name)).unwrap()).concat(),
    )
    .unwrap();
    assert!(
        matches!(outcome("too_deep", "chain"), Err(StampError::OtherRoot(_))),
        "{:?}",
        outcome("too_deep", "chain")
    );
    // The root has expired.
    openssl(at, "req -new -key root.key -subj /CN=Invented-root-tsa -out old.csr");
    openssl(
        at,
        "x509 -req -in old.csr -signkey root.key -days -1 -sha256 -extfile ext -extensions ca -out old.pem",
    );
    let old = read_roots(&std::fs::read(at.join("old.pem")).unwrap()).unwrap();
    authority.sign_with("tsa", "root", "sha256");
    let outcome = check(&authority.token(b"a note"), b"a note", &old);
    assert!(matches!(outcome, Err(StampError::NotValidThen(_))), "{outcome:?}");
}

//! A person's key through the calls a phone makes, with the errors a screen decides by.
#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Certificate, OrganisationKey, Role};
use farsiding_core::ids::{DeviceId, OrganisationId};
use serde_json::Value;

use crate::{Book, FarsidingError};

const PIN: &str = "294611";

fn phone() -> (tempfile::TempDir, Book) {
    let folder = tempfile::tempdir().unwrap();
    let place = folder.path().to_str().unwrap().to_owned();
    let book = Book::open(place, "book".into(), vec![3; 32]).unwrap();
    (folder, book)
}

fn enrol(book: &Book) {
    let key = OrganisationKey::from_secret([7; 32]);
    let device = DeviceId::read(&book.device()).unwrap();
    let organisation = OrganisationId::of_key(&key.public());
    let certificate = Certificate::by_role(organisation, device, "phone", Role::Operator, UtcMillis(1));
    book.enrolled(key.public().to_string(), certificate.seal(&key).unwrap()).unwrap();
}

fn here(book: &Book) -> Value {
    serde_json::from_str(&book.people_here().unwrap()).unwrap()
}

fn lift_a_hold(book: &Book) {
    let id = "07".repeat(16);
    let drafts = format!(r#"[{{"says": {{"hold_lifted": {{"hold": "{id}", "because": "x"}}}}}}]"#);
    book.append(format!("visit:{id}"), drafts, "ada".into()).unwrap();
}

#[test]
fn a_phone_makes_a_key_signs_what_binds_and_is_told_what_went_wrong_in_kinds() {
    let (folder, book) = phone();
    let ada = || "ada".to_owned();
    let pin = || PIN.to_owned();
    assert_eq!(here(&book)["can_make"], false);
    assert!(matches!(book.make_person_key(ada(), pin()), Err(FarsidingError::WrongCall { .. })));
    book.keep_beside(vec![9; 31]).unwrap_err();
    book.keep_beside(vec![9; 32]).unwrap();
    assert!(matches!(book.make_person_key(ada(), pin()), Err(FarsidingError::NotEnrolled { .. })));
    enrol(&book);
    assert_eq!(here(&book)["can_make"], true);
    assert!(matches!(book.make_person_key(ada(), "123456".into()), Err(FarsidingError::WeakPin { .. })));
    assert!(matches!(book.make_person_key(ada(), "12".into()), Err(FarsidingError::WeakPin { .. })));
    assert!(matches!(book.unlock_person(ada(), pin()), Err(FarsidingError::NoKey { .. })));
    let digits = book.make_person_key(ada(), pin()).unwrap();
    let said = here(&book);
    assert_eq!(said["holder"]["person"], "ada");
    assert_eq!(said["holder"]["how"], "act");
    assert_eq!(said["keys"][0]["fingerprint"], digits.as_str());
    assert_eq!(said["keys"][0]["tries_left"], 10);
    assert!(matches!(book.make_person_key(ada(), pin()), Err(FarsidingError::HasKey { .. })));
    assert_eq!(book.binds(r#"[{"says": {"remark": {"text": "x"}}}]"#.into()), Ok(false));
    assert_eq!(book.binds(r#"[{"says": {"released": {"as_residue": true}}}]"#.into()), Ok(true));
    // One act, and it is locked again; the record stays as it was made when the book is opened anew.
    lift_a_hold(&book);
    assert_eq!(here(&book)["holder"], Value::Null);
    assert_eq!(book.unlock_person(ada(), "830275".into()).map_err(left), Err(Some(9)));
    book.change_pin(ada(), pin(), "830274".into()).unwrap();
    assert_eq!(book.unlock_person(ada(), pin()).map_err(left), Err(Some(9)));
    drop(book);
    let book = Book::open(folder.path().to_str().unwrap().to_owned(), "book".into(), vec![3; 32]).unwrap();
    book.keep_beside(vec![9; 32]).unwrap();
    assert_eq!(here(&book)["keys"][0]["tries_left"], 9, "closing the app gives no try back");
    book.unlock_person(ada(), "830274".into()).unwrap();
    assert_eq!(here(&book)["holder"]["person"], "ada");
    book.lock_people();
    assert_eq!(here(&book)["holder"], Value::Null);
    book.forget_person_key(ada()).unwrap();
    assert_eq!(here(&book)["keys"].as_array().unwrap().len(), 0);
    assert!(matches!(book.forget_person_key(ada()), Err(FarsidingError::NoKey { .. })));
}

fn left(error: FarsidingError) -> Option<u32> {
    match error {
        FarsidingError::WrongPin { left, .. } => Some(left),
        _ => None,
    }
}

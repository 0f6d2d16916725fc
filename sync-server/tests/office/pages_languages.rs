//! In which language a page is: the account's, before signing in the browser's, and else the organisation's.

use super::pages_stage::{
    PASSWORD, Scene, Session, account, form, post, text, try_to_sign_in, with_password,
};
use super::stage::farsiding;

fn says(arguments: &[&str]) -> String {
    let output = farsiding(arguments).output().unwrap();
    assert!(output.status.success(), "{output:?}");
    String::from_utf8(output.stdout).unwrap()
}

/// Returns the page for signing in, as a browser with these headers gets it.
fn door(scene: &Scene, headers: &[(&str, &str)]) -> String {
    text(&scene.server.ask("GET", "/office/sign-in", headers, b""))
}

fn cookie_set(answer: &super::stage::Answer) -> String {
    let line = answer.raw_head.lines().find(|line| line.contains("farsiding-language="));
    line.unwrap_or_default().to_owned()
}

#[test]
fn before_signing_in_the_browser_decides_and_else_the_organisation() {
    let scene = Scene::set();
    let data = scene.server.data.to_str().unwrap();
    assert!(door(&scene, &[]).contains("<html lang=\"en-US\" dir=\"ltr\">"));
    says(&["language", "--data", data, "es-MX"]);
    assert!(door(&scene, &[]).contains("<html lang=\"es-MX\""), "nobody wished for another");
    let wish = ("accept-language", "fr;q=0.9,en;q=0.5");
    let page = door(&scene, &[wish]);
    assert!(page.contains("<html lang=\"fr-CA\"") && page.contains("Mot de passe"), "{page}");
    assert!(door(&scene, &[("accept-language", "de")]).contains("<html lang=\"es-MX\""));
    // Every language is offered by its own name, and a choice is stronger than the wish.
    for name in ["English (United States)", "Español (México)", "Français (Canada)"] {
        assert!(page.contains(name), "{name} is not in {page}");
    }
    let chosen = post(&scene.server, "/office/language", &[], &form(&[("language", "en-US"), ("to", "")]));
    assert_eq!(chosen.status, 303);
    assert!(cookie_set(&chosen).contains("farsiding-language=en-US"), "{}", chosen.head);
    let cookie = ("cookie", "farsiding-language=en-US");
    assert!(door(&scene, &[wish, cookie]).contains("<html lang=\"en-US\""));
    for other in ["xx-XX", "en-XA", "", "../es-MX"] {
        let refused = post(&scene.server, "/office/language", &[], &form(&[("language", other)]));
        assert_eq!(refused.status, 422, "{other:?} is not offered");
        assert!(!refused.head.to_lowercase().contains("set-cookie"), "{}", refused.head);
    }
    // A cookie that names no language counts for nothing.
    assert!(door(&scene, &[wish, ("cookie", "farsiding-language=xx")]).contains("<html lang=\"fr-CA\""));
    // What is refused is said in the same language.
    let wrong = text(&try_to_sign_in(&scene.server, "Clerk", "some wrong words here", &[wish]));
    assert!(wrong.contains("Nom ou mot de passe erroné"), "{wrong}");
    let nowhere = text(&scene.server.ask("GET", "/office/link/AAAA", &[wish], b""));
    assert!(
        nowhere.contains("<html lang=\"fr-CA\"") && nowhere.contains("Ce lien n’ouvre rien"),
        "{nowhere}"
    );
}

#[test]
fn a_person_reads_every_page_and_every_refusal_in_the_language_of_the_account() {
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    assert!(office.page("/office/").contains("<html lang=\"en-US\""));
    assert_eq!(office.send("/office/own/language", &[("language", "en-XA")]).status, 422);
    let chosen = office.send("/office/own/language", &[("language", "fr-CA")]);
    assert_eq!(chosen.status, 303);
    assert!(cookie_set(&chosen).contains("=fr-CA"), "the page for signing in follows");
    let page = office.page("/office/own");
    assert!(page.contains("<html lang=\"fr-CA\"") && page.contains("Se déconnecter"), "{page}");
    // The account is stronger than what the browser says.
    let missing = text(&scene.server.ask(
        "GET",
        "/office/visits/00112233445566778899aabbccddeeff",
        &[("cookie", office.cookie.as_str()), ("accept-language", "es-MX")],
        b"",
    ));
    assert!(missing.contains("<html lang=\"fr-CA\"") && missing.contains("Introuvable"), "{missing}");
    let refused = office.send("/office/own/password", &[("password", "a"), ("fresh", "b"), ("again", "c")]);
    assert!(text(&refused).contains("Les deux nouveaux mots de passe"), "{}", text(&refused));
    let no_token = post(&scene.server, "/office/sign-out", &[("cookie", office.cookie.as_str())], "");
    assert!(text(&no_token).contains("Rien n’a été changé"), "{}", text(&no_token));
    // The audit keeps its own words, shows them in the reader's, and finds them by either.
    assert!(scene.audit().iter().any(|(_, did, _)| did == "chose a language"));
    for question in ["choisi+une+langue", "chose+a+language"] {
        let found = office.page(&format!("/office/audit?q={question}"));
        assert!(found.contains("a choisi une langue"), "{found}");
    }
    // Nothing chosen is the organisation's.
    assert_eq!(office.send("/office/own/language", &[("language", "")]).status, 303);
    says(&["language", "--data", scene.server.data.to_str().unwrap(), "es-MX"]);
    assert!(office.page("/office/").contains("<html lang=\"es-MX\""));
}

#[test]
fn the_command_line_gives_an_account_its_language() {
    let scene = Scene::set();
    let data = scene.server.data.to_str().unwrap();
    let add =
        ["account", "add", "--data", data, "--name", "Lectora", "--role", "reader", "--language", "es-MX"];
    let made = with_password(&add, PASSWORD);
    assert!(made.status.success(), "{made:?}");
    let reader = Session::of(&scene.server, "Lectora");
    assert!(reader.page("/office/").contains("<html lang=\"es-MX\""));
    let refused = text(&reader.get("/office/accounts"));
    assert!(refused.contains("Su cuenta no tiene este derecho: administrar dispositivos"), "{refused}");
    says(&["account", "language", "--data", data, "--name", "lectora", "--language", "fr-CA"]);
    assert!(reader.page("/office/").contains("<html lang=\"fr-CA\""));
    let listed = says(&["account", "list", "--data", data, "--json"]);
    assert!(listed.contains("\"language\":\"fr-CA\""), "{listed}");
    let unknown =
        farsiding(&["account", "language", "--data", data, "--name", "Lectora", "--language", "xx"]);
    assert!(!{ unknown }.output().unwrap().status.success());
    account(&scene.server, "Plain");
    assert!(Session::of(&scene.server, "Plain").page("/office/").contains("<html lang=\"en-US\""));
}

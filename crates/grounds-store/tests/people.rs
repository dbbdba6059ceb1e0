//! People who joined with a phone.

#![allow(
    clippy::unwrap_used,
    reason = "the test fails where something is not as it should be"
)]

mod site;

use grounds_store::Store;
use site::store;
use uuid::Uuid;

#[tokio::test]
async fn who_joined_is_known_until_shut_out_and_remembered_after() {
    let (folder, store) = store().await;
    let ana = store.add_person("Ana", &"a".repeat(64)).await.unwrap();
    let ben = store.add_person("Ben", &"b".repeat(64)).await.unwrap();
    store.person_seen(ana.id).await.unwrap();
    store.revoke_person(ben.id).await.unwrap();
    let first = store.person(ben.id).await.unwrap().unwrap().revoked;
    store.revoke_person(ben.id).await.unwrap();
    store.close().await;

    let store = Store::open(&folder.path().join("data")).await.unwrap();
    let people = store.people().await.unwrap();
    let names: Vec<&str> = people.iter().map(|person| person.name.as_str()).collect();
    assert_eq!(names, ["Ana", "Ben"]);
    assert!(people[0].revoked.is_none() && people[0].seen >= ana.seen);
    assert!(first.is_some() && people[1].revoked == first);
    assert_eq!(store.person(Uuid::nil()).await.unwrap(), None);
}

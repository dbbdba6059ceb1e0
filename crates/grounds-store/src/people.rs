//! People who joined with a phone. A phone proves who it is by a secret that it got when it joined;
//! here only the secret's hash is kept.

use jiff::Timestamp;
use sqlx::{Row, sqlite::SqliteRow};
use uuid::Uuid;

use crate::{
    error::StoreError,
    store::{Store, moment},
};

/// Somebody whose phone has joined.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Person {
    /// The phone's own id.
    pub id: Uuid,
    /// The name that was given when it joined.
    pub name: String,
    /// The SHA-256 of the phone's secret, in lower-case hexadecimal.
    pub token: String,
    /// When it joined.
    pub joined: Timestamp,
    /// When it was last heard of.
    pub seen: Timestamp,
    /// When it was shut out, if it was.
    pub revoked: Option<Timestamp>,
}

impl Store {
    /// Lets a phone join.
    ///
    /// # Errors
    ///
    /// [`StoreError`] if the database fails.
    pub async fn add_person(&self, name: &str, token: &str) -> Result<Person, StoreError> {
        let now = Timestamp::now();
        let person = Person {
            id: Uuid::now_v7(),
            name: name.to_owned(),
            token: token.to_owned(),
            joined: now,
            seen: now,
            revoked: None,
        };
        let mut change = self.begin().await?;
        sqlx::query(
            "INSERT INTO people (id, name, token, joined, seen) VALUES ($1, $2, $3, $4, $4)",
        )
        .bind(person.id.to_string())
        .bind(&person.name)
        .bind(&person.token)
        .bind(now.to_string())
        .execute(&mut *change)
        .await?;
        change.commit().await?;
        Ok(person)
    }

    /// Somebody by the phone's id; nothing if it never joined.
    ///
    /// # Errors
    ///
    /// [`StoreError`] if the database fails.
    pub async fn person(&self, id: Uuid) -> Result<Option<Person>, StoreError> {
        let row =
            sqlx::query("SELECT id, name, token, joined, seen, revoked FROM people WHERE id = $1")
                .bind(id.to_string())
                .fetch_optional(self.readers())
                .await?;
        row.as_ref().map(person).transpose()
    }

    /// Everybody who ever joined, in the order in which they did.
    ///
    /// # Errors
    ///
    /// [`StoreError`] if the database fails.
    pub async fn people(&self) -> Result<Vec<Person>, StoreError> {
        let rows = sqlx::query(
            "SELECT id, name, token, joined, seen, revoked FROM people ORDER BY joined, id",
        )
        .fetch_all(self.readers())
        .await?;
        rows.iter().map(person).collect()
    }

    /// Writes down that a phone was heard of.
    ///
    /// # Errors
    ///
    /// [`StoreError`] if the database fails.
    pub async fn person_seen(&self, id: Uuid) -> Result<(), StoreError> {
        self.mark("UPDATE people SET seen = $1 WHERE id = $2", id)
            .await
    }

    /// Shuts a phone out. One that is out already stays so since then.
    ///
    /// # Errors
    ///
    /// [`StoreError`] if the database fails.
    pub async fn revoke_person(&self, id: Uuid) -> Result<(), StoreError> {
        let statement = "UPDATE people SET revoked = $1 WHERE id = $2 AND revoked IS NULL";
        self.mark(statement, id).await
    }

    async fn mark(&self, statement: &'static str, id: Uuid) -> Result<(), StoreError> {
        let mut change = self.begin().await?;
        sqlx::query(statement)
            .bind(Timestamp::now().to_string())
            .bind(id.to_string())
            .execute(&mut *change)
            .await?;
        change.commit().await?;
        Ok(())
    }
}

fn person(row: &SqliteRow) -> Result<Person, StoreError> {
    let id: String = row.try_get("id")?;
    let revoked: Option<String> = row.try_get("revoked")?;
    Ok(Person {
        id: id.parse().map_err(|_| StoreError::Broken {
            what: format!("the id `{id}` of a phone"),
        })?,
        name: row.try_get("name")?,
        token: row.try_get("token")?,
        joined: moment(row, "joined")?,
        seen: moment(row, "seen")?,
        revoked: revoked.map(|_| moment(row, "revoked")).transpose()?,
    })
}

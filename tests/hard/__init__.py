"""The house under hard treatment: forms and files of junk, a server that is killed, a database that is full or gone."""

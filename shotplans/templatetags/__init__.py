"""Words for the light's templates."""

"""Pages of the light. Belongs here: form, action, redirect; not here: rules."""

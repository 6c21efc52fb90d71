"""Instructions to events: holes filled by the least-cost path, doubt measured by its margins."""

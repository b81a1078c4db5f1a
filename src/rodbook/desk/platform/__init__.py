"""What every page needs: documents and their revisions, roles, planning by workers, forms with faults, drawings that answer."""

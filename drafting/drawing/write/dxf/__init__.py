"""The sheet as DXF."""

# SPDX-License-Identifier: GPL-3.0-or-later
# Run before a package is made of what is installed: the folder into which CPack had it installed has what the mask left of its mode.
file(CHMOD "${CPACK_TEMPORARY_INSTALL_DIRECTORY}${CPACK_PACKAGING_INSTALL_PREFIX}"
  DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
